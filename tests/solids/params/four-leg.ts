import type { Params, SectionGiven } from '../../../src/core/job.ts'
import type { Dice } from '../../prove/seed.ts'

const square = (width: number, wall = 2): SectionGiven => ({ kind: 'square-tube', width, wall })
const rect = (width: number, height: number, wall = 2): SectionGiven => ({
  kind: 'rect-tube',
  width,
  height,
  wall,
})

/** Tables, benches, stools and desks on four legs, with every way of standing; now and then an impossible one. */
export function randomParams(roll: Dice): Params {
  const upper = roll.pick([
    'mitered frame',
    'frame, long sides through',
    'frame, short sides through',
    'rails between the legs',
  ])
  const bare = upper === 'rails between the legs'
  const splay = roll.pick(['straight', 'angles', 'angles', 'feet', 'feet'])
  const legsMeet = roll.pick(['under the corners', 'under the corners', 'inside the corners'])
  // Legs inside a frame lean one way at most.
  const oneWay = !bare && legsMeet === 'inside the corners'
  const both = roll() < 0.5 && !oneWay
  const [alongLength, alongWidth] = both
    ? [true, true]
    : roll.pick([[true, false] as const, [false, true] as const])
  const length = roll.between(400, 1800)
  const width = roll.between(350, 900)
  const out = () => roll.between(20, 180)
  const off = oneWay ? 2 * 40 : 0
  const legTurned = roll.pick(['square to the frame', 'square to the frame', 'to the lean'])
  const onFace = !(legTurned === 'to the lean' && both && splay !== 'straight')
  const stretchers = onFace ? roll.pick(['none', 'around', 'ends', 'H']) : 'none'
  const top = roll.pick(['none', 'plate', 'top sheet'])
  const topEdge = roll.pick(['flush', 'inset', 'overhang'])
  const caps = roll() < 0.7
  const levelers = roll() < 0.5
  const shelf = roll() < 0.5
  return {
    length,
    width,
    height: roll.between(380, 1000),
    upper,
    section: bare ? roll.pick([rect(40, 20), square(25)]) : roll.pick([square(40, 3), rect(60, 40, 3)]),
    stands: bare ? 'on edge' : roll.pick(['flat', 'on edge']),
    ...(bare ? { railsSit: roll.pick(['middle', 'flush']) } : {}),
    top,
    ...(top === 'none' ? {} : { topThickness: roll.between(1.5, 12), topEdge }),
    ...(top === 'none' || topEdge === 'flush' ? {} : { topEdgeBy: roll.between(1, 40) }),
    legSection: roll.pick([square(40, 3), square(35), square(30), rect(40, 30), rect(50, 30, 3)]),
    legStands: roll.pick(['along the length', 'along the width']),
    ...(bare ? {} : { legsMeet }),
    ...(bare || oneWay ? {} : { legInset: roll.pick([0, 0, 3.2, 12]) }),
    splay,
    ...(splay === 'angles'
      ? {
          leanLength: alongLength ? roll.between(2, 20) : 0,
          leanWidth: alongWidth ? roll.between(2, 20) : 0,
        }
      : {}),
    ...(splay === 'feet'
      ? {
          feetLength: length - off + (alongLength ? out() : 0),
          feetWidth: width - off + (alongWidth ? out() : 0),
        }
      : {}),
    ...(splay === 'straight' ? {} : { legTurned }),
    stretchers,
    ...(stretchers === 'none'
      ? {}
      : {
          stretcherSection: roll.pick([square(20, 1.5), square(25), rect(30, 15, 1.5)]),
          stretcherStands: roll.pick(['flat', 'on edge']),
          stretcherHeight: roll.between(80, 300),
        }),
    ...(stretchers === 'around' || stretchers === 'H' ? { shelf } : {}),
    ...((stretchers === 'around' || stretchers === 'H') && shelf
      ? { shelfThickness: roll.between(1.5, 6), shelfClear: roll.between(0, 4) }
      : {}),
    caps,
    ...(caps ? { capThickness: roll.between(3, 12) } : {}),
    levelers,
    ...(top === 'none' ? {} : { topCut: roll.pick(['last', 'by numbers']) }),
  }
}
