// Frames whose drawings are looked through: every build as a new job starts, some with more on them.
import { buildOf, builds } from '../../src/core/builds/index.ts'
import { newJob } from '../../src/core/builds/start.ts'
import { frameOf } from '../../src/core/draft.ts'
import type { Frame } from '../../src/core/frame/frame.ts'
import type { Params } from '../../src/core/job.ts'
import { startShop } from '../../src/core/shop-start.ts'

const more: Readonly<Record<string, Params>> = {
  rack: { shelves: 'sheet', bays: 2, braces: 'back and ends', bracesIn: 'every' },
  pedestal: {
    arms: '5',
    armsMeet: 'hub plate',
    bars: 'spider',
    barSection: { kind: 'square-tube', width: 25, wall: 2 },
  },
  'loose-top': { barCount: 2 },
}

function framed(kind: string): Frame {
  const start = newJob(buildOf(kind)!, 'mm', 'j')
  const job = { ...start, build: { kind, params: { ...start.build.params, ...more[kind] } } }
  const made = frameOf(job, startShop('mm'))
  if (!made.ok) throw new Error(made.problems[0]!.text)
  return made.value
}

/** A list of pieces is not joined: nothing of it hides anything. */
export const drawnFrames: readonly (readonly [string, Frame])[] = builds
  .filter(({ kind }) => kind !== 'cut-list')
  .map(({ kind }) => [kind, framed(kind)] as const)
