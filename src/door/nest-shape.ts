import * as v from 'valibot'
import type {
  EndPlane,
  Nest,
  NestPart,
  NestPiece,
  NestSection,
  NestStick,
  PairedPiece,
  Slope,
  StickEnd,
  StockLength,
} from '../core/nest.ts'
import { section } from './section-shape.ts'
import {
  distance,
  fields,
  flag,
  greatest,
  id,
  list,
  number,
  oneOf,
  pair,
  type Shape,
  shapeOf,
  size,
  text,
  whole,
} from './shape.ts'

// The door reads the form of a nest; whether it is true (nothing overlaps, nothing forgotten) is for core/check.

const ratio = number('a slope from -1000 to 1000', { least: -1000, most: 1000 })
const place = number('a place along the stick, mm')
/** Cents, or mm where nothing has a price. */
const cost = number('a cost of 0 or more', { least: 0, most: greatest * 1000 })
/** Section, ends and lengths in steps stand in it. */
export const key = text(1000)

export const slope = shapeOf<Slope>()(fields('a slope', { p: ratio, q: ratio }))

const madeHow = oneOf('mill', 'cut')
const endOf = v.lazy((given): Shape<StickEnd> => (typeof given === 'object' && given ? slope : madeHow))
export const stickEnds = pair('the ends of a stick, each "mill", "cut" or a slope', endOf)

const turning = oneOf('none', 'over', 'end', 'flip')
const way = oneOf('square first', 'from the stick', 'paired')

const paired = shapeOf<PairedPiece>()(
  fields('a piece of a paired blank', {
    piece: id,
    mark: id,
    key,
    copy: whole(1, 1000),
    perCopy: whole(1, 1_000_000),
    mid: size,
  }),
)
const makes = pair('the two pieces of a paired blank', paired)

const part = shapeOf<NestPart>()(
  fields('a part of a nest', {
    job: id,
    mark: id,
    key,
    mid: size,
    ends: pair('slopes', slope),
    turns: list('turnings', turning),
    count: whole(1, 1_000_000),
    perCopy: whole(1, 1_000_000),
    first: v.optional(whole(1, 1_000_000)),
    same: v.optional(text(200)),
    finished: v.optional(v.literal(true, 'true, or left out')),
    makes: v.optional(list('paired blanks', makes)),
  }),
)

const stock = shapeOf<StockLength>()(
  fields('a stock length', {
    length: size,
    price: v.optional(cost),
    count: v.optional(whole(0, 1_000_000)),
    ends: stickEnds,
    rack: v.optional(id),
    halfOf: v.optional(size),
  }),
)

const endPlane = shapeOf<EndPlane>()(fields('an end', { x: place, p: ratio, q: ratio }))

const piece = shapeOf<NestPiece>()(
  fields('a piece of a nest', {
    piece: id,
    mark: id,
    key,
    job: id,
    copy: whole(1, 1000),
    turn: turning,
    ends: pair('ends, the leading one first', endPlane),
    blank: v.optional(id),
    makes: v.optional(makes),
  }),
)

const stick = shapeOf<NestStick>()(
  fields('a stick', {
    id,
    from: oneOf('buy', 'rack'),
    rack: v.optional(id),
    length: size,
    price: cost,
    halfOf: v.optional(size),
    ends: stickEnds,
    way,
    pieces: list('pieces', piece),
    drop: distance,
  }),
)

const nestSection = shapeOf<NestSection>()(
  fields('the nest of one section', {
    section,
    kerf: distance,
    trim: distance,
    grip: distance,
    way,
    demand: list('parts', part),
    stock: list('stock lengths', stock),
    sticks: list('sticks', stick),
    cost,
    bound: cost,
    proved: flag,
  }),
)

export const nest = shapeOf<Nest>()(
  fields('a nest', {
    version: oneOf(1),
    id,
    solver: text(200),
    parent: v.optional(id),
    jobs: list('job ids', id),
    sections: list('sections', nestSection),
  }),
)
