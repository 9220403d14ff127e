import {
  type Block,
  blocksUnder,
  type Load,
  type Lying,
  loadsOf,
  lyingsOf,
  usualLying,
} from '../fitup/blocks.ts'
import { blockLines } from '../fitup/words.ts'
import type { Frame } from '../frame/frame.ts'
import type { Touching } from '../frame/landing.ts'
import type { Vec3 } from '../geometry/vec3.ts'
import { massOf } from '../parts/weight.ts'
import type { Reading } from '../shop.ts'
import type { Part } from './parts-to-weld.ts'

// How each part lies while it is tacked and welded, as Fit-up lays it on the table, and what it weighs when it is turned.

export interface Lies {
  /** Which way is up; absent for caps, which are welded in the hand, and for rings, which lie flat. */
  readonly up?: Vec3
  /** The same in words. */
  readonly text?: string
  /** What goes under these members, a line each. */
  readonly under: (members: ReadonlySet<string>) => readonly string[]
}

const inWords: Readonly<Record<Lying, string>> = {
  'as it stands': 'stands as it will in the end',
  'top side down': 'lies top side down',
  'flat on its side': 'lies flat on its side',
}

const inHand: Lies = { under: () => [] }

/** What is put together when the sub-assemblies are done: it lies as Fit-up lays the whole. */
function wholeOf({ members, assemblies }: Frame, loads: readonly Load[]): Load {
  const whole = loads.find(({ id }) => id === 'all')
  if (whole) return whole
  const inAssembly = new Set(assemblies.flatMap((one) => one.members))
  const fresh = new Set(members.map(({ id }) => id).filter((id) => !inAssembly.has(id)))
  const [only, ...others] = loads
  return only && others.length === 0
    ? { ...only, fresh }
    : { id: 'all', name: 'All together', members: members.map(({ id }) => id), fresh, ring: false }
}

/** What is put together from sub-assemblies that are done lies its show side down, if it has one. */
const lyingOf = (frame: Frame, load: Load, touching: Touching): Lying =>
  load.fresh.size === 0 && frame.assemblies.some(({ ring }) => ring)
    ? 'top side down'
    : usualLying(frame, load, touching)

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** `the top frame`, `pair 1`. */
export const calledIn = ({ name }: Part['assembly']): string =>
  /\d$/.test(name) ? name.toLowerCase() : `the ${name.toLowerCase()}`

function sayUnder(
  frame: Frame,
  blocks: readonly Block[],
  members: ReadonlySet<string>,
  reading: Reading,
): readonly string[] {
  const own = blocks.filter(({ member }) => members.has(member))
  const lines = new Map<string, readonly string[]>()
  for (const { title, text } of blockLines(frame, own, reading))
    lines.set(title, [...(lines.get(title) ?? []), text])
  return [...lines].map(([title, texts]) => `Under ${title}: ${texts.join('; ')}.`)
}

export function liesOf(frame: Frame, parts: readonly Part[], touching: Touching, reading: Reading): Lies[] {
  const loads = loadsOf(frame)
  return parts.map(({ assembly }): Lies => {
    const load = assembly.id === 'all' ? wholeOf(frame, loads) : loads.find(({ id }) => id === assembly.id)
    if (!load) return inHand
    const lying = lyingOf(frame, load, touching)
    const up = lyingsOf(frame, load, touching).get(lying)!
    const blocks = blocksUnder(frame, load, up, touching)
    const name = assembly.id === 'all' ? 'It' : capital(calledIn(assembly))
    return {
      ...(assembly.ring ? {} : { up, text: `${name} ${inWords[lying]}.` }),
      under: (members) => sayUnder(frame, blocks, members, reading),
    }
  })
}

/** What is turned over with a part, kg: its own members, or all that is welded by then, and the plates on them. */
export function turnedMass(frame: Frame, parts: readonly Part[], at: number): number {
  const { assembly } = parts[at]!
  const joined = new Set(parts.slice(0, at + 1).flatMap(({ joints }) => joints.flatMap((one) => one.members)))
  const own =
    assembly.members.length === 0 ? joined : new Set(assembly.members.filter((id) => joined.has(id)))
  const members = frame.members.filter(({ id }) => own.has(id))
  const plates = frame.plates.filter(({ id, on }) => joined.has(id) && on.every((one) => own.has(one)))
  return massOf(members, plates)
}

/** The heaviest of the sub-assemblies that are put together, kg; 0 for a part that is made of loose pieces. */
export const liftedMass = (frame: Frame, parts: readonly Part[], at: number): number =>
  parts[at]!.assembly.id === 'all'
    ? Math.max(
        0,
        ...parts
          .slice(0, at)
          .map(({ assembly }, k) => (assembly.id === 'caps' ? 0 : turnedMass(frame, parts, k))),
      )
    : 0
