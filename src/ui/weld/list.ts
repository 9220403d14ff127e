import type { Plan, SeamClass, WeldStep } from '../../core/plan-shapes.ts'

export type Tick = 'tacked' | 'welded' | 'checked'

/** What is said of a step when it is done. */
export const tickOf = (step: WeldStep): Tick =>
  step.kind === 'tack' ? 'tacked' : step.kind === 'pass' ? 'welded' : 'checked'

/** The word on a step: what kind of work it is. */
export const kindWords: Readonly<Record<WeldStep['kind'], string>> = {
  clean: 'Clean',
  drill: 'Drill',
  fit: 'Fit',
  tack: 'Tack',
  check: 'Check',
  pass: 'Weld',
  turn: 'Turn',
}

/** The word once it is done. */
export const doneWords: Readonly<Record<WeldStep['kind'], string>> = {
  clean: 'cleaned',
  drill: 'drilled',
  fit: 'fitted',
  tack: 'tacked',
  check: 'checked',
  pass: 'welded',
  turn: 'turned',
}

/** A class of seam as a welder says it. */
export const seamWords: Readonly<Record<SeamClass, string>> = {
  outside: 'Upright seam, outside of the corner',
  inside: 'Upright seam, inside of the corner',
  top: 'Flat seam, upper side',
  bottom: 'Flat seam, under side',
  fillet: 'Fillet',
  flare: 'Flare seam, along the round corner of the tube',
  'square groove': 'Square groove, two faces in one plane',
  edge: 'Edge seam, round the cap',
}

/** Key of a step of one copy among what was ticked. */
export const tickKey = (job: string, copy: number, step: string): string => `${job}/${copy}/${step}`

export const isTicked = (
  ticked: Readonly<Record<string, string>>,
  job: string,
  copy: number,
  step: string,
): boolean => ticked[tickKey(job, copy, step)] !== undefined

/**
 * Joints numbered as the frame names them, so that corner 4 of a ring is joint 4 whatever the order of work. The same
 * for every copy.
 */
export function jointNumbers(plan: Plan): ReadonlyMap<string, number> {
  const worked = new Set(plan.weld.steps.map(({ joint }) => joint))
  const joints = plan.frame.joints.filter(({ id }) => worked.has(id))
  return new Map(joints.map(({ id }, at) => [id, at + 1]))
}

/** A stretch of the list that is one kind of work on one sub-assembly. */
export interface Stage {
  readonly id: string
  readonly title: string
  readonly steps: readonly WeldStep[]
}

const work = (step: WeldStep): 'tack' | 'weld' =>
  step.kind === 'pass' || step.kind === 'turn' ? 'weld' : 'tack'

/** The list cut into stretches: fitting and tacking, then welding, of each sub-assembly as they follow. */
export function stagesOf(plan: Plan): readonly Stage[] {
  const names = new Map<string, string>([
    ...plan.frame.assemblies.map((assembly) => [assembly.id, assembly.name] as const),
    ...plan.frame.plates.map((plate) => [plate.id, plate.name] as const),
  ])
  const stages: { id: string; title: string; steps: WeldStep[] }[] = []
  let last = ''
  for (const step of plan.weld.steps) {
    const name = step.stage ?? names.get(step.assembly) ?? 'All together'
    const key = `${name} ${work(step)}`
    if (key !== last) {
      const doing = work(step) === 'weld' ? 'weld' : step.kind === 'check' ? 'check' : 'fit and tack'
      // What stands outside of every sub-assembly says itself when it is done.
      const title = /^(Before|When) /.test(name) ? name : `${name}: ${doing}`
      stages.push({ id: `${key} ${stages.length}`, title, steps: [] })
      last = key
    }
    stages[stages.length - 1]!.steps.push(step)
  }
  return stages
}

/** State of a joint in words and for the drawing. */
export type JointState = 'to go' | 'on now' | 'tacked' | 'welded'

export function jointState(
  joint: string,
  steps: readonly WeldStep[],
  done: (step: WeldStep) => boolean,
  now: string | undefined,
): JointState {
  if (joint === now) return 'on now'
  const own = steps.filter((step) => step.joint === joint && step.kind !== 'check')
  if (own.length > 0 && own.every(done)) return own.some((step) => step.kind === 'pass') ? 'welded' : 'tacked'
  const tacks = own.filter((step) => step.kind === 'tack')
  return tacks.length > 0 && tacks.every(done) ? 'tacked' : 'to go'
}
