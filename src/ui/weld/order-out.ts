import type { Plan, WeldStep } from '../../core/plan-shapes.ts'
import { showLength } from '../../core/reading/show.ts'
import type { Reading } from '../../core/shop.ts'
import type { Cell, TableOut } from '../fields/table-text.ts'
import { doneWords, jointNumbers, kindWords, seamWords, stagesOf } from './list.ts'

/** Every step of one copy in its order: tacks, checks and passes, with the seam and what is done. */
export function orderOut(plan: Plan, reading: Reading, isDone: (step: WeldStep) => boolean): TableOut {
  const numbers = jointNumbers(plan)
  const steps = stagesOf(plan).flatMap(({ title, steps: own }) => own.map((step) => ({ step, title })))
  return {
    heads: ['step', 'stage', 'work', 'joint', 'what', 'seam', 'seam length', 'wall', 'done'],
    rows: steps.map(({ step, title }, at): Cell[] => {
      const seam = plan.weld.seams.find(({ id }) => id === step.seam)
      return [
        at + 1,
        title,
        kindWords[step.kind],
        (step.joint !== undefined && numbers.get(step.joint)) || '',
        step.text,
        seam ? seamWords[seam.class] : '',
        seam ? showLength(seam.length, reading) : '',
        seam ? showLength(seam.size, reading) : '',
        isDone(step) ? doneWords[step.kind] : 'to go',
      ]
    }),
  }
}
