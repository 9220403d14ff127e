import type { NestSection, NestStick } from '../core/nest.ts'
import type { Plan, Shown } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { sectionName } from '../core/section/name.ts'
import type { Shop } from '../core/shop.ts'
import { table } from './table.ts'

// The plan as a person reads it in a terminal: what to cut, from what, how the saw is set, what to mind.

const sayShown = ({ text, unit, lies }: Shown): string => `${text} ${unit}${lies ? ` ${lies}` : ''}`

const block = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)]

function sizes(plan: Plan): string[] {
  const asked = plan.sizes.filter((size) => size.asked)
  return asked.map(
    ({ name, printed }) =>
      `${sayShown(printed.exact)} ${name} asked for; the lengths below give ${sayShown(printed.built)}`,
  )
}

function parts(plan: Plan, shop: Shop): string[] {
  const rows = plan.parts.map((part) => [
    part.mark,
    `${part.count} ×`,
    part.name,
    sectionName(part.section, shop.reading),
    `${part.printed.primary} ${sayShown(part.printed.length)}`,
    `short ${sayShown(part.printed.shortPoint)}`,
    part.printed.angles.map(({ text }) => text).join(' / '),
    part.shape,
    part.printed.mass,
  ])
  return table(rows, [1, 8])
}

/** How good a nest is, in the words that the screens use. */
function howGood({ cost, bound, proved }: NestSection): string {
  if (proved) return 'proved least'
  if (bound <= 0) return 'best found'
  const over = Math.ceil(((cost - bound) / bound) * 1000) / 10
  return `at most ${over} % from the least possible`
}

function costOf(section: NestSection, shop: Shop): string {
  const priced = section.stock.some((stock) => stock.rack === undefined && stock.price !== undefined)
  return priced
    ? `${shop.currency} ${(section.cost / 100).toFixed(2)}`
    : `${say(section.cost, shop.reading)} bought`
}

const runs = (stick: NestStick): string => {
  const counts = new Map<string, string[]>()
  for (const { mark, piece } of stick.pieces) counts.set(mark, [...(counts.get(mark) ?? []), piece])
  return [...counts.values()].map((pieces) => pieces.join(' ')).join(', ')
}

function nests(plan: Plan, shop: Shop): string[] {
  const lines: string[] = []
  for (const section of plan.nest?.sections ?? []) {
    lines.push(
      `${sectionName(section.section, shop.reading)}: ${section.sticks.length} ` +
        `${section.sticks.length === 1 ? 'stick' : 'sticks'}, ${costOf(section, shop)}, ${howGood(section)}`,
    )
    const rows = section.sticks.map((stick) => [
      stick.id,
      stick.from === 'buy' ? 'buy' : `rack ${stick.rack ?? ''}`,
      say(stick.length, shop.reading),
      runs(stick),
      `left ${say(stick.drop, shop.reading)}`,
    ])
    lines.push(...table(rows, [2]).map((line) => `  ${line}`))
  }
  return lines
}

function setUps(plan: Plan, shop: Shop): string[] {
  const saws = new Map(shop.saws.map((saw) => [saw.id, saw.name]))
  return (plan.run?.setUps ?? []).flatMap((setUp, index) => {
    const { printed } = setUp
    const miter = `miter ${printed.miter.text} ${printed.lean}`.trim()
    const words = [
      `${index + 1}. ${saws.get(setUp.saw) ?? setUp.saw}: ${miter}; stop ${sayShown(printed.stop)} on the ${setUp.stopSide}`,
      ...[printed.longSide, printed.turn].filter((line) => line !== '').map((line) => `   ${line}`),
      `   ${setUp.pieces.length} ${setUp.pieces.length === 1 ? 'cut' : 'cuts'}: ${setUp.pieces.join(' ')}`,
    ]
    return words
  })
}

function landings(plan: Plan): string[] {
  const rows = plan.landings.map(({ on, by, face, from, printed }) => [
    `${by} on ${on}`,
    `face ${face}`,
    `from end ${from}`,
    `${sayShown(printed.near)} to ${sayShown(printed.far)}`,
  ])
  return table(rows)
}

/** The whole plan in words and tables, for standard output. */
export function planText(plan: Plan, shop: Shop): string {
  const { work } = plan.run ?? {}
  const totals = work
    ? [
        `${work.heads} head changes, ${work.stops} stop moves, ${work.loads} loads, ${work.turns} turns, ` +
          `${work.cuts} cuts: about ${Math.round(work.minutes)} minutes by the figures of this shop`,
      ]
    : []
  const hardware = plan.frame.hardware.map(
    ({ kind, count, text }) => `${count} × ${kind}${text ? `: ${text}` : ''}`,
  )
  const plates = table(plan.plates.map(({ mark, name, text }) => [mark, name, text]))
  return `${[
    `${plan.name}, ${plan.quantity} of it, in the shop “${shop.name}”`,
    ...sizes(plan),
    ...block('Parts of one', parts(plan, shop)),
    ...block('Plates and sheets of one', plates),
    ...block('Hardware of one', hardware),
    ...block('Steel', nests(plan, shop)),
    ...block('Set-ups in the order of work', [...setUps(plan, shop), ...totals]),
    ...block('Layout marks', landings(plan)),
    ...block(
      'Mind',
      plan.warnings.map(({ text }) => text),
    ),
  ].join('\n')}\n`
}
