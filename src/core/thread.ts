import tapDrills from '../../shared/reference/tap_drills.json'
import { decimals } from './reading/round.ts'
import { say } from './reading/show.ts'
import type { Result } from './result.ts'
import { bad, good } from './result.ts'
import type { Reading } from './shop.ts'
import { sameLength } from './tolerance.ts'
import type { Mm } from './units.ts'
import { inch } from './units.ts'

/** A thread and the drill for its tapped hole. Lengths mm. */
export interface Thread {
  /** `1/4-20`, `M8`: a metric one without pitch is the coarse one. */
  readonly name: string
  /** Outside diameter. */
  readonly major: Mm
  readonly pitch: Mm
  /** Diameter of the tap drill. */
  readonly drill: Mm
  /** What the drill is called: `#7`, `F`, `5/16`, `6.8 mm`. */
  readonly drillName: string
  /** Where the drill's size was read. */
  readonly source: string
}

/** Titles of shared/reference/sources.json, by the word that a row names. */
const books: Readonly<Record<string, string>> = {
  MH2168: 'Machinery’s Handbook, 31st ed., p. 2168',
  TAPCH: 'a published tap drill chart',
}

/** What is from memory says so. */
function sourceOf(status: string): string {
  const code = /^looked_up (\w+)/.exec(status)?.[1] ?? ''
  return books[code] ?? 'from memory, check them on your own drill chart'
}

function toThread(row: (typeof tapDrills)[number]): Thread {
  const source = sourceOf(row.status)
  if (row.drill_mm !== undefined) {
    const [name = row.thread] = row.thread.split('x')
    return {
      name,
      major: row.major,
      pitch: row.pitch,
      drill: row.drill_mm,
      drillName: `${row.drill_mm} mm`,
      source,
    }
  }
  const sizes = { major: row.major * inch, pitch: inch / row.tpi, drill: row.drill_in * inch }
  return { name: row.thread, ...sizes, drillName: row.drill, source }
}

/** Threads known here, inch first. The source of each stands in its row of shared/reference/tap_drills.json. */
export const threads: readonly Thread[] = tapDrills.map(toThread)

export const threadNames: readonly string[] = threads.map(({ name }) => name)

const plain = (name: string): string => name.toLowerCase().replace(/[×*]/g, 'x').replace(/[\s"]/g, '')

/** A thread as typed: `1/4-20`, `M8`, `M8 × 1.25`. Fails with the names that are known. */
export function findThread(typed: string): Result<Thread> {
  const asked = plain(typed)
  const names = (thread: Thread) => [thread.name, `${thread.name}x${decimals(thread.pitch, 3)}`].map(plain)
  const found = threads.find((thread) => names(thread).includes(asked))
  if (found) return good(found)
  return bad('unknown-thread', `“${typed}” is no thread known here; known are ${threadNames.join(', ')}.`)
}

/** The thread of a name out of `threadNames`; any other name is a mistake of the program and throws. */
export function tapOf(name: string): Thread {
  const thread = threads.find((known) => known.name === name)
  if (!thread) throw new RangeError(`${name} is no thread known here; typed text goes through findThread`)
  return thread
}

export interface Engagement {
  /** Turns of thread in the thickness. */
  readonly threads: number
  /** Thickness over the outside diameter; common practice asks for 1 at least in steel. */
  readonly diameters: number
}

/** How much thread of this name (of `threadNames`) a thickness, mm, holds. */
export function threadsIn(name: string, thickness: Mm): Engagement {
  const { pitch, major } = tapOf(name)
  return { threads: thickness / pitch, diameters: thickness / major }
}

/** `3.75 threads in 3/16 in, less than one diameter (1/4 in)`. */
export function sayEngagement(name: string, thickness: Mm, reading: Reading): string {
  const { major } = tapOf(name)
  const held = `${decimals(threadsIn(name, thickness).threads, 2)} threads in ${say(thickness, reading)}`
  return thickness < major - sameLength ? `${held}, less than one diameter (${say(major, reading)})` : held
}
