import { canonical } from './nest-seal.ts'
import { unitOf } from './reading/show.ts'
import type { Saw, Shop } from './shop.ts'
import { inch } from './units.ts'

/** A saw with a swinging head, stop on the left, vise on the stick's side: the commonest, by common practice. */
export const startSaw: Saw = {
  id: 'saw-1',
  name: 'Saw 1',
  blades: [{ id: 'blade-1', name: 'Blade 1', kerf: 2.5 }],
  blade: 'blade-1',
  stopSide: 'left',
  swings: 'head',
  readsAtSquare: 0,
  viseHolds: 'both',
  leastToHold: 60,
  cleanUp: 10,
  limits: { towardStop: 45, awayFromStop: 45, bevel: 0, longestStop: 3000 },
  minutes: { head: 2, stop: 1, load: 1.5, turn: 0.25, cut: 0.75 },
}

/** The shop before anybody has said what is true in it. Every figure can be changed in the Shop station. */
export function startShop(units: 'in' | 'mm'): Shop {
  const inches = units === 'in'
  return {
    id: 'shop',
    name: 'Our shop',
    reading: inches ? { kind: 'inch-fraction', denominator: 16 } : { kind: 'mm', step: 1 },
    says: inches ? 'stick and drop' : 'length and offcut',
    mass: inches ? 'lb' : 'kg',
    currency: inches ? '$' : '€',
    hand: 'right',
    daylight: false,
    paper: inches ? 'Letter' : 'A4',
    saws: [
      {
        ...startSaw,
        blades: [{ ...startSaw.blades[0]!, kerf: inches ? inch / 8 : 2.5 }],
        leastToHold: inches ? 2.5 * inch : 60,
        cleanUp: inches ? inch / 2 : 10,
        limits: { ...startSaw.limits, longestStop: inches ? 120 * inch : 3000 },
      },
    ],
    sections: [],
    usualLengths: inches ? [240 * inch, 288 * inch] : [6000],
    blankAllowance: 0,
    leastDrop: inches ? 12 * inch : 300,
    longSide: 'fence',
    rootGap: 0,
    tacking: 'in a jig',
  }
}

/** What is measured, and what goes with it unless somebody chose otherwise. */
const measured = ['saws', 'usualLengths', 'leastDrop'] as const
const goesWith = ['says', 'mass', 'currency', 'paper'] as const

/**
 * The starting figures of the unit that is read now, for a shop whose own still stand as they began in the other unit:
 * sticks of 6096 mm are no figure of a metric shop. Undefined once somebody has said what is true.
 */
export function startInUnit(shop: Shop): Partial<Shop> | undefined {
  const units = unitOf(shop.reading)
  const [before, now] = [startShop(units === 'in' ? 'mm' : 'in'), startShop(units)]
  const asBegun = (key: keyof Shop): boolean => canonical(shop[key]) === canonical(before[key])
  if (shop.sections.length > 0 || !measured.every(asBegun)) return undefined
  return Object.fromEntries([...measured, ...goesWith.filter(asBegun)].map((key) => [key, now[key]]))
}
