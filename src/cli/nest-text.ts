import type { NestRequest } from '../door/nest-problem.ts'
import type { NestResult } from './nest-result.ts'

/** A nest as a person reads it in a terminal. */
export function nestText({ problem, perUnit }: NestRequest, result: NestResult): string {
  const money = perUnit === 100
  const sum = (value: number) => (money ? value.toFixed(2) : `${shown(value)} mm`)
  const { name, sticks, cost, bound, proved, provedSticks, patterns, unplaced = [] } = result
  const how = proved
    ? `proved least${provedSticks ? ', and the fewest sticks for it' : ''}`
    : unplaced.length > 0
      ? 'not all pieces find room'
      : `no nest costs less than ${sum(bound)}`
  const head = `${name ? `${name}: ` : ''}${sticks} ${sticks === 1 ? 'stick' : 'sticks'}, cost ${sum(cost)}, ${how}`
  const lines = patterns.map(({ stock, count, pieces, order }) => {
    const { length, rack } = problem.stock[stock]!
    const what = order
      ? order.map(({ part, turn }) => `${part}${turn === 'none' ? '' : ` turned ${turn}`}`).join(', ')
      : pieces.map((piece) => `${piece.count} × ${shown(problem.parts[piece.part]!.mid)}`).join(', ')
    return `  ${count} × ${shown(length)}${rack === undefined ? '' : ' from the rack'}: ${what}`
  })
  const left = unplaced.map(
    ({ part, count }) => `  no room for ${count} × ${shown(problem.parts[part]!.mid)}`,
  )
  return `${[head, ...lines, ...left].join('\n')}\n`
}

const shown = (length: number): string => String(+length.toFixed(3))
