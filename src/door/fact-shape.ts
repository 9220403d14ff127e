import * as v from 'valibot'
import type { Bodies, Fact, FactKind } from '../core/facts.ts'
import { key, stickEnds } from './nest-shape.ts'
import { section } from './section-shape.ts'
import {
  agrees,
  distance,
  id,
  money,
  number,
  oneOf,
  openFields,
  type Shape,
  size,
  text,
  whole,
} from './shape.ts'
import { setTo } from './shop-shape.ts'

// Facts are never rewritten: fields that this program does not know are kept as they came, and so are whole bodies
// of kinds and versions that it does not know.

const named = { stick: id }
const cutFrom = v.lazy((given): Shape<Bodies['cut']['from']> => {
  const fromPiece = typeof given === 'object' && given !== null && 'piece' in given
  return fromPiece
    ? openFields('where it was cut from', { piece: id })
    : openFields('where it was cut from', named)
})

const cutOff = { stage: oneOf('blank', 'half', 'piece'), key, mark: id, label: id, from: cutFrom }

const step = openFields('a step of the weld list', { step: text(200) })

/** Shape of each body at version 1. */
const bodies: { readonly [K in FactKind]: Shape<Bodies[K]> } = {
  cut: openFields('a cut', {
    ...cutOff,
    stroke: v.optional(openFields('a stroke of several', { at: whole(1, 100), of: whole(1, 100) })),
  }),
  undo: openFields('an undo', { fact: id }),
  accepted: openFields('an accepted nest', { nest: id }),
  bought: openFields('steel bought', {
    section,
    length: size,
    count: whole(1, 100_000),
    price: v.optional(money),
  }),
  found: openFields('steel found', { section, length: size, ends: stickEnds }),
  opened: openFields('a stick opened', { stick: id, rack: v.optional(id) }),
  kept: openFields('a drop kept', {
    section,
    stick: id,
    length: size,
    ends: stickEnds,
    sign: v.optional(text(20)),
  }),
  scrapped: openFields('a rest that is scrap', named),
  loaded: openFields('a stick as it is', { stick: id, length: size, ends: stickEnds }),
  miscut: openFields('a miscut', {
    ...cutOff,
    why: text(200),
    section,
    took: distance,
    left: distance,
    ends: stickEnds,
  }),
  measured: openFields('a measure of a piece', {
    piece: id,
    what: text(60),
    got: size,
    wanted: v.optional(size),
  }),
  stopMoved: openFields('a correction of the stop', {
    setUp: id,
    by: number('a correction, mm'),
  }),
  bladeChanged: openFields('a blade changed', { saw: id, blade: id, kerf: distance }),
  cutApart: openFields('what was cut apart', { why: text(200) }),
  discarded: openFields('steel discarded', { rack: id }),
  corrected: openFields('a length corrected', { rack: id, length: size }),
  sheetFound: openFields('a rest of sheet', { thickness: size, length: size, width: size }),
  sheetCorrected: openFields('a rest of sheet corrected', { sheet: id, length: size, width: size }),
  sheetDiscarded: openFields('a rest of sheet discarded', { sheet: id }),
  tacked: step,
  welded: step,
  checked: step,
  gauged: openFields('what was measured', { of: text(400), value: number('a number of mm or degrees') }),
  noted: openFields('a note', { of: text(400), text: text(2000) }),
  setTo: openFields('what a welding machine was set to', setTo),
}

const anyBody = v.custom<unknown>((given) => given !== undefined, 'what happened')

const envelope = (body: Shape<unknown>) =>
  v.pipe(
    openFields('a fact', {
      id,
      v: whole(1),
      kind: text(60),
      device: id,
      seq: whole(0),
      lamport: whole(0),
      at: text(60),
      job: v.optional(id),
      copy: v.optional(whole(1, 1000)),
      nest: v.optional(id),
      body,
    }),
    agrees(
      'id',
      (fact) => fact.id === `${fact.device}:${fact.seq}`,
      (fact) => `"${fact.device}:${fact.seq}", its device and its sequence`,
    ),
  )

const known = new Map<string, Shape<Fact>>(
  Object.entries(bodies).map(([kind, body]) => [kind, envelope(body)]),
)
const unknownFact: Shape<Fact> = envelope(anyBody)

/** A fact of a kind and version known here is read to the last field; of any other, the envelope. */
export const fact = v.lazy((given): Shape<Fact> => {
  const { kind, v: version } = (given ?? {}) as { readonly kind?: unknown; readonly v?: unknown }
  return (version === 1 && typeof kind === 'string' && known.get(kind)) || unknownFact
})
