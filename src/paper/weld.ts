import type { Plan, WeldStep } from '../core/plan-shapes.ts'
import type { Mm } from '../core/units.ts'
import { jointNames } from '../core/weld/joint-name.ts'
import type { Block } from './flow.ts'
import { bodyWide, lineHigh, linesOf, type PageSize, textFont } from './size.ts'

// The weld sheet: tacks, checks and passes in order, joined into rows where one thing is done to many joints.

export interface WeldRow {
  readonly text: string
  /** A box with its word for each step; one box without a word for a step that stands alone. */
  readonly boxes: readonly string[]
}

const last = (id: string) => id.slice(id.lastIndexOf('/') + 1).replaceAll('-', ' ')
const seamClass = (step: WeldStep): string => (step.seam ? last(step.seam).replace(/ \d+$/, '') : '')

/** How a step may share a row with the next one: by its joint, or by the kind of its seam. */
const byJoint = ({ kind, joint: of }: WeldStep): string | undefined =>
  of && (kind === 'tack' || kind === 'check') ? of : undefined
const byClass = (step: WeldStep): string | undefined =>
  step.seam && (step.kind === 'tack' || step.kind === 'pass') ? `${step.kind} ${seamClass(step)}` : undefined

const runFrom = (
  steps: readonly WeldStep[],
  at: number,
  key: (step: WeldStep) => string | undefined,
): number => {
  const first = key(steps[at]!)
  if (first === undefined) return 1
  let end = at + 1
  while (end < steps.length && key(steps[end]!) === first) end += 1
  return end - at
}

/** Consecutive steps on one joint, or one kind of seam on many joints, are one row, in the order of the work. */
export function weldRows(steps: readonly WeldStep[], names: ReadonlyMap<string, string>): WeldRow[] {
  const joint = (id: string) => names.get(id) ?? last(id)
  const said = (step: WeldStep): string =>
    step.kind === 'check' ? 'check' : step.seam ? last(step.seam) : step.joint ? joint(step.joint) : ''
  const rows: { text: string; boxes: string[]; mixed?: true }[] = []
  for (let at = 0; at < steps.length; ) {
    const step = steps[at]!
    const onJoint = runFrom(steps, at, byJoint)
    const ofClass = runFrom(steps, at, byClass)
    const count = Math.max(onJoint, ofClass)
    const run = steps.slice(at, at + count)
    at += count
    if (count > 1 && onJoint >= ofClass && step.joint)
      rows.push({ text: `Tack ${joint(step.joint)}:`, boxes: run.map(said) })
    else if (count > 1)
      rows.push({
        text: `${step.kind === 'tack' ? 'Tack' : 'Weld'} ${seamClass(step)}:`,
        boxes: run.map(({ joint: of }) => (of ? joint(of) : '')),
      })
    else if (step.kind === 'pass' && step.joint) {
      // Single passes of changing kind share a row that names both.
      const word = `${joint(step.joint)}, ${said(step)}`
      const before = rows.at(-1)
      if (before?.mixed) before.boxes.push(word)
      else rows.push({ text: 'Weld:', boxes: [word], mixed: true })
    } else rows.push({ text: [step.text, ...(step.under ?? [])].join(' '), boxes: [''] })
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
  const nameOf = ({ stage, assembly }: WeldStep) => stage ?? names.get(assembly) ?? 'All together'
  const joints = jointNames(plan.frame)
  const groups: WeldStep[][] = []
  for (const step of plan.weld.steps) {
    const group = groups.at(-1)
    if (group && nameOf(group[0]!) === nameOf(step)) group.push(step)
    else groups.push([step])
  }
  return groups.map((steps, group): Block<string, WeldRow> => {
    const copy = `Copy ____ of ${plan.quantity}`
    const rows = weldRows(steps, joints)
    const all = group === 0 && plan.quantity > 1 ? [{ text: copy, boxes: [] }, ...rows] : rows
    const name = nameOf(steps[0]!)
    return {
      head: { high: lineHigh + 4, what: name },
      strips: all.map((row) => {
        const alone = row.boxes.every((word) => word === '')
        const high = alone
          ? linesOf(row.text, wide - 14) * lineHigh + 2
          : lineHigh + boxLines(row.boxes, wide) * (lineHigh + 1) + 2
        return { high, what: row }
      }),
    }
  })
}
