import type { EndCut } from '../core/frame/frame.ts'
import type { NestPiece, NestSection, NestStick } from '../core/nest.ts'
import type { Left, Part, Plan, Product, SetUp } from '../core/plan-shapes.ts'
import type { Section } from '../core/section/section.ts'
import { heatPlan } from '../core/weld/heat-plan.ts'

// The `tube-plan` document, version 1, as docs/formats.md describes it: a plain copy of what the plan holds, field by
// field, so that a field added inside does not leak into what other programs read.

const sectionOf = ({ kind, width, height, wall, cornerRadius }: Section) => ({
  kind,
  width,
  height,
  wall,
  cornerRadius,
})

/** A plane; of a saddle what it fits, and under `first` the plane that the saw cuts before it. */
const endOf = ({ point, normal, saddle }: EndCut) =>
  saddle === undefined
    ? { point, normal }
    : {
        saddle: {
          on: saddle.on,
          point: saddle.point,
          along: saddle.along,
          radius: saddle.radius,
          first: { point, normal },
        },
      }

function frameOf({ frame, parts, plates, weld, mass }: Plan) {
  const markOf = new Map(parts.flatMap((part) => part.members.map((id) => [id, part.mark] as const)))
  const plateMark = new Map(plates.map((plate) => [plate.id, plate.mark]))
  return {
    members: frame.members.map(({ id, name, section, pose, ends, mates, gap }) => ({
      id,
      mark: markOf.get(id),
      name,
      section: sectionOf(section),
      pose,
      ends: ends.map(endOf),
      mates,
      gap,
    })),
    plates: frame.plates.map(({ id, polygon, holes, slots, thickness, pose }) => ({
      id,
      mark: plateMark.get(id),
      polygon,
      holes,
      ...(slots ? { slots } : {}),
      thickness,
      pose,
    })),
    joints: frame.joints.map(({ id, kind, members, at }) => ({ id, kind, members, at })),
    seams: weld.seams.map(({ id, joint, class: sort, length, size, from, to, place }) => ({
      id,
      joint,
      class: sort,
      length,
      size,
      from,
      to,
      place: { member: place.member, fromA: place.fromA },
    })),
    hardware: frame.hardware.map(({ id, kind, count, at }) => ({ id, kind, count, at })),
    size: frame.size,
    mass,
    floor: frame.floor,
  }
}

const partOf = (part: Part) => ({
  mark: part.mark,
  count: part.count,
  members: part.members,
  longPoint: part.longPoint,
  shortPoint: part.shortPoint,
  edges: part.edges,
  angleFromSquare: part.angleFromSquare,
  shape: part.shape,
  ...(part.saddles === undefined ? {} : { saddles: part.saddles }),
  mass: part.mass,
  printed: part.printed,
})

const pieceOf = ({ piece, mark, turn, ends, blank, makes }: NestPiece) => ({
  piece,
  mark,
  turn,
  ends: ends.map(({ x, p, q }) => ({ x, p, q })),
  ...(blank === undefined ? {} : { blank }),
  ...(makes === undefined ? {} : { makes: makes.map((each) => each.piece) }),
})

const stickOf = ({ id, from, length, ends, way, pieces, drop }: NestStick) => ({
  id,
  from,
  length,
  ends,
  way,
  pieces: pieces.map(pieceOf),
  drop,
})

const nestOf = ({ section, kerf, trim, grip, cost, bound, proved, sticks }: NestSection) => ({
  section: sectionOf(section),
  kerf,
  trim,
  grip,
  cost,
  bound,
  proved,
  sticks: sticks.map(stickOf),
})

const setUpOf = (setUp: SetUp) => ({
  id: setUp.id,
  saw: setUp.saw,
  section: sectionOf(setUp.section),
  swing: setUp.swing,
  tilt: setUp.tilt,
  roll: setUp.roll,
  ramp: setUp.ramp,
  stop: setUp.stop,
  exact: setUp.exact,
  longSide: setUp.longSide,
  faceDown: setUp.faceDown,
  ...(setUp.seam === undefined ? {} : { seam: setUp.seam }),
  pieces: setUp.pieces,
  printed: setUp.printed,
})

const productOf = ({ id, from, kind, mark, makes }: Product) => ({
  id,
  from,
  kind,
  ...(mark === undefined ? {} : { mark }),
  ...(makes === undefined ? {} : { makes }),
})

const leftOf = ({ piece, mark, why, ways }: Left) => ({ piece, mark, why, ways })

/**
 * The plan as other programs read it. Frame and parts are unrounded; nests and programs count in printed lengths and
 * stops. Without a nest there are no `nests` and no `run`.
 */
export function toTubePlan(plan: Plan) {
  const { nest, run, weld } = plan
  const heat = heatPlan(plan.frame, weld)
  return {
    format: 'tube-plan',
    version: 1,
    job: plan.name,
    quantity: plan.quantity,
    frame: frameOf(plan),
    parts: plan.parts.map(partOf),
    landings: plan.landings.map(({ on, by, face, from, near, far, around, printed }) => ({
      on,
      by,
      face,
      from,
      near,
      far,
      ...(around === undefined ? {} : { around }),
      printed,
    })),
    ...(nest === undefined ? {} : { nests: nest.sections.map(nestOf) }),
    ...(run === undefined
      ? {}
      : {
          run: {
            setUps: run.setUps.map(setUpOf),
            products: run.products.map(productOf),
            programs: run.programs.map(({ id, saw, stopSide, hold, load, kerf, beside, steps }) => ({
              id,
              saw,
              stopSide,
              hold,
              load,
              kerf,
              ...(beside === undefined ? {} : { beside }),
              steps,
            })),
            ...(run.trims === undefined ? {} : { trims: run.trims }),
            ...(run.left === undefined ? {} : { left: run.left.map(leftOf) }),
          },
        }),
    weld: {
      graph: heat.graph,
      seams: heat.seams,
      tacks: weld.tacks,
      order: weld.order,
      model: heat.model,
      index: heat.index,
      round: heat.round,
    },
    warnings: plan.warnings,
  }
}

/** The document, version 1. */
export type TubePlan = ReturnType<typeof toTubePlan>
