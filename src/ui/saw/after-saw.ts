import type { Plan } from '../../core/plan-shapes.ts'

/** The station that the steel goes to from the saw: where nothing is joined there is nothing to fit up or to weld. */
export const afterSaw = ({ frame }: Plan) =>
  frame.joints.length > 0
    ? ({ station: 'fit-up', name: 'Fit-up' } as const)
    : ({ station: 'finish', name: 'Finish' } as const)
