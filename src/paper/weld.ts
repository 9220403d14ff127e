import type { Plan, WeldStep } from '../core/plan-shapes.ts'
import type { Mm } from '../core/units.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, type PageSize, textFont } from './size.ts'

// The weld sheet: tacks, checks and passes in order, joined into rows where one thing is done to many joints.

export interface WeldRow {
  readonly text: string
  /** A box with its word for each step; one box without a word for a step that stands alone. */
  readonly boxes: readonly string[]
}

const last = (id: string) => id.slice(id.lastIndexOf('/') + 1).replaceAll('-', ' ')
const joint = (id: string) =>
  id
    .slice(id.indexOf('/') + 1)
    .replaceAll('-', ' ')
    .replaceAll('/', ' to ')

const rowKey = (step: WeldStep): string => {
  if (step.kind === 'tack' && step.joint) return `tack ${step.joint}`
  if (step.kind === 'check' && step.joint) return `tack ${step.joint}`
  if (step.kind === 'pass' && step.seam)
    return `pass ${step.assembly} ${last(step.seam).replace(/ \d+$/, '')}`
  return step.id
}

const wordOf = (step: WeldStep): string => {
  if (step.kind === 'check') return 'check'
  if (step.kind === 'tack' && step.seam) return last(step.seam)
  return step.joint ? joint(step.joint) : ''
}

function headOf(step: WeldStep): string {
  if (step.joint && (step.kind === 'tack' || step.kind === 'check')) return `Tack ${joint(step.joint)}:`
  if (step.kind === 'pass' && step.seam) return `Weld ${last(step.seam).replace(/ \d+$/, '')}:`
  return step.text
}

/** Consecutive steps on one joint, or one kind of seam, are one row. */
export function weldRows(steps: readonly WeldStep[]): WeldRow[] {
  const rows: { key: string; text: string; boxes: string[] }[] = []
  for (const step of steps) {
    const key = rowKey(step)
    const before = rows.at(-1)
    if (before?.key === key) before.boxes.push(wordOf(step))
    else
      rows.push({
        key,
        text: headOf(step),
        boxes: [step.joint ? wordOf(step) : ''],
      })
  }
  return rows
}

/** Width of a box with its word. */
export const boxWith = (word: string): Mm => 12 + (word.length > 0 ? word.length * textFont * 0.56 + 3 : 0)

/** Rows that the boxes take, broken where a line is full. */
export function boxLines(boxes: readonly string[], wide: Mm): number {
  let lines = 1
  let used = 0
  for (const word of boxes) {
    const need = boxWith(word)
    if (used > 0 && used + need > wide) {
      lines += 1
      used = 0
    }
    used += need
  }
  return lines
}

export function weldBlocks(plan: Plan, page: PageSize): Block<string, WeldRow>[] {
  const wide = bodyWide(page)
  const names = new Map(plan.frame.assemblies.map(({ id, name }) => [id, name]))
  const groups: WeldStep[][] = []
  for (const step of plan.weld.steps) {
    const group = groups.at(-1)
    if (group && group[0]!.assembly === step.assembly) group.push(step)
    else groups.push([step])
  }
  return groups.map((steps): Block<string, WeldRow> => {
    const name = names.get(steps[0]!.assembly) ?? 'All together'
    return {
      head: { high: lineHigh + 4, what: name },
      strips: weldRows(steps).map((row) => {
        const alone = row.boxes.length === 1 && row.boxes[0] === ''
        const high = alone
          ? linesOf(row.text, wide - 14) * lineHigh + 2
          : lineHigh + boxLines(row.boxes, wide) * (lineHigh + 1) + 2
        return { high, what: row }
      }),
    }
  })
}
