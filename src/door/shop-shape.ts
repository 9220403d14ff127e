import * as v from 'valibot'
import { flatClasses, type General, linearClasses } from '../core/fitup/general.ts'
import type {
  Blade,
  CarriedSection,
  CarriedSheet,
  Rate,
  Reading,
  Saw,
  Shop,
  Table,
  WeldSetting,
} from '../core/shop.ts'
import { section } from './section-shape.ts'
import {
  agrees,
  distance,
  fields,
  flag,
  id,
  list,
  money,
  name,
  number,
  oneOf,
  type Shape,
  shapeOf,
  size,
  text,
  whole,
} from './shape.ts'

const readings = {
  'inch-fraction': fields('a reading in inch fractions', {
    kind: oneOf('inch-fraction'),
    denominator: oneOf(8, 16, 32, 64),
  }),
  'inch-decimal': fields('a reading in decimal inches', {
    kind: oneOf('inch-decimal'),
    places: oneOf(2, 3),
  }),
  mm: fields('a reading in millimeters', { kind: oneOf('mm'), step: oneOf(1, 0.5, 0.1) }),
}

const anyReading = v.looseObject(
  { kind: oneOf('inch-fraction', 'inch-decimal', 'mm') },
  'a reading: an object with kind "inch-fraction", "inch-decimal" or "mm"',
)

const reading = v.lazy((given): Shape<Reading> => {
  const kind = (given as { readonly kind?: unknown } | null | undefined)?.kind
  if (kind === 'inch-fraction' || kind === 'inch-decimal' || kind === 'mm') return readings[kind]
  // Any other kind is refused here, with the kinds that there are.
  return anyReading as unknown as Shape<Reading>
})

const blade = shapeOf<Blade>()(fields('a blade', { id, name, kerf: size }))

const swing = number('an angle from square of 0 to 89.9 degrees', { least: 0, most: 89.9 })
const minutes = number('minutes, 0 to 600', { least: 0, most: 600 })

const distinct = (items: readonly { readonly id: string }[]): boolean =>
  new Set(items.map((item) => item.id)).size === items.length

const someOf = <S extends v.GenericSchema>(what: string, item: S) =>
  v.pipe(list(what, item), v.minLength(1, `a list of ${what}, one at least`))

/** Kerf of the blade that is on; undefined when there is none of that id. */
const kerfOn = (saw: Pick<Saw, 'blades' | 'blade'>): number | undefined =>
  saw.blades.find((blade) => blade.id === saw.blade)?.kerf

const saw = shapeOf<Saw>()(
  v.pipe(
    fields('a saw', {
      id,
      name,
      blades: someOf('blades', blade),
      blade: id,
      stopSide: oneOf('left', 'right'),
      swings: oneOf('head', 'vise'),
      readsAtSquare: oneOf(0, 90),
      viseHolds: oneOf('stick', 'stop', 'both'),
      leastToHold: distance,
      cradle: v.optional(flag),
      ramp: v.optional(flag),
      cleanUp: distance,
      limits: fields('the limits of a saw', {
        towardStop: swing,
        awayFromStop: swing,
        bevel: swing,
        longestStop: size,
      }),
      gang: v.optional(whole(1, 4)),
      minutes: fields('the minutes of a saw', {
        head: minutes,
        stop: minutes,
        load: minutes,
        turn: minutes,
        cut: minutes,
      }),
    }),
    agrees('blades', (s) => distinct(s.blades), 'blades with an id each of its own'),
    agrees(
      'blade',
      (s) => kerfOn(s) !== undefined,
      (s) => `the id of one of its blades: ${s.blades.map((b) => `"${b.id}"`).join(', ')}`,
    ),
    agrees(
      'cleanUp',
      (s) => s.cleanUp === 0 || s.cleanUp >= (kerfOn(s) ?? 0),
      (s) => `0 for none, or at least ${kerfOn(s)} mm, the kerf of its blade, which the clean-up cut takes`,
    ),
  ),
)

const rate = shapeOf<Rate>()(
  fields('a price by length or mass', {
    per: oneOf('foot', 'meter', 'pound', 'kilogram'),
    cents: number('a price in cents, 0 to 1000000', { least: 0 }),
  }),
)

const sheet = shapeOf<CarriedSheet>()(
  v.pipe(
    fields('a sheet', {
      thickness: size,
      length: size,
      width: size,
      price: v.optional(money),
      count: v.optional(whole(0, 100_000)),
    }),
    agrees(
      'width',
      (s) => s.width <= s.length,
      (s) => `at most ${s.length} mm, its length, which is the greater side`,
    ),
  ),
)

const carried = shapeOf<CarriedSection>()(
  fields('a section carried', {
    section,
    name,
    measured: v.optional(fields('measured sizes', { width: size, height: size })),
    saw: v.optional(id),
    rate: v.optional(rate),
    inHalves: v.optional(fields('sticks cut in half', { wanted: flag, cents: money, takes: distance })),
    stock: list(
      'stock lengths',
      fields('a stock length', {
        length: size,
        price: v.optional(money),
        count: v.optional(whole(0, 100_000)),
      }),
    ),
  }),
)

/** What a welding machine is set to. */
export const setTo = {
  process: text(60),
  wall: size,
  joint: text(60),
  wire: text(60),
  gas: text(60),
  volts: number('volts over 0, to 100', { above: 0, most: 100 }),
  wireSpeed: number('a wire speed over 0, to 5000 in/min', { above: 0, most: 5000 }),
  travel: v.optional(number('a travel over 0, to 1000 in/min', { above: 0, most: 1000 })),
  note: v.optional(text(500)),
}

const setting = shapeOf<WeldSetting>()(
  fields('a record of the settings book', { ...setTo, result: oneOf('good', 'fair', 'bad') }),
)

const general = shapeOf<General>()(
  fields('general tolerances', {
    linear: v.optional(oneOf(...linearClasses)),
    flat: v.optional(oneOf(...flatClasses)),
  }),
)

const table = shapeOf<Table>()(
  fields('a table', { length: size, width: size, clear: distance, slot: v.optional(size) }),
)

export const shop = shapeOf<Shop>()(
  v.pipe(
    fields('a shop', {
      id,
      name,
      reading,
      says: oneOf('stick and drop', 'length and offcut'),
      mass: oneOf('lb', 'kg'),
      currency: text(10),
      hand: oneOf('left', 'right'),
      daylight: flag,
      paper: oneOf('Letter', 'A4'),
      saws: someOf('saws', saw),
      sections: list('sections carried', carried),
      sheets: v.optional(list('sheets carried', sheet)),
      usualLengths: someOf('stock lengths', size),
      blankAllowance: distance,
      leastDrop: distance,
      longSide: oneOf('fence', 'outward'),
      rootGap: number('a root gap of 0 to 10 mm', { least: 0, most: 10 }),
      tacking: oneOf('in a jig', 'piece by piece', 'half rings'),
      settings: v.optional(list('settings of the welding machine', setting)),
      passes: v.optional(oneOf('upright first', 'inside last', 'balanced')),
      otherWaySaves: v.optional(money),
      tolerance: v.optional(number('a tolerance of more than 0, to 10 mm', { above: 0, most: 10 })),
      general: v.optional(general),
      table: v.optional(table),
      habitsOff: v.optional(list('habits', oneOf('deburr', 'chips', 'back off', 'mark'))),
      markWith: v.optional(oneOf('paint pen', 'scribe or stamp')),
      backupDays: v.optional(whole(0, 365)),
    }),
    agrees('saws', (s) => distinct(s.saws), 'saws with an id each of its own'),
    agrees(
      'sections',
      // A shop with no saw at all is said above.
      (s) =>
        s.saws.length === 0 ||
        s.sections.every((c) => c.saw === undefined || s.saws.some((saw) => saw.id === c.saw)),
      (s) => `sections whose saw is one of the shop's: ${s.saws.map((saw) => `"${saw.id}"`).join(', ')}`,
    ),
  ),
)
