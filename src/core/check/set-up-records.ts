import type { Slope } from '../nest.ts'
import type { Run, SetUp } from '../plan-shapes.ts'
import { sectionKey } from '../section/section.ts'
import type { Reading, Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, inch, type Mm, toRad } from '../units.ts'
import type { Replayed, ReplayedCut, Rounded } from './replay.ts'
import { reach, type Solid } from './solid.ts'
import { deg, mm } from './words.ts'

/**
 * People read the set-ups, not the programs: each record must say what the program does, list the pieces that its cuts
 * make, in order, and print the same figures in digits. A stop is rounded by half of what the shop reads, from that of
 * a length that was itself rounded, by `rounded` at most on its stick.
 */
export function setUpFaults(
  { setUps, products }: Run,
  { cuts }: Replayed,
  shop: Shop,
  rounded: Rounded,
): string[] {
  const finished = new Set(products.filter(({ kind }) => kind === 'piece').map(({ id }) => id))
  const faults: string[] = []
  const records = new Map<string, SetUp>()
  for (const setUp of setUps) {
    if (records.has(setUp.id)) faults.push(`set-up ${setUp.id} stands twice`)
    records.set(setUp.id, setUp)
    const pieces = cuts
      .filter((cut) => cut.setUp === setUp.id)
      .flatMap(({ keep, second }) => (second !== undefined && finished.has(second) ? [keep, second] : [keep]))
    if (pieces.join('\n') !== setUp.pieces.join('\n'))
      faults.push(
        `set-up ${setUp.id}: lists ${setUp.pieces.join(', ')}; its cuts make ${pieces.join(', ') || 'nothing'}`,
      )
    faults.push(...printedFaults(setUp, shop).map((fault) => `set-up ${setUp.id}: ${fault}`))
  }
  for (const cut of cuts) {
    const record = records.get(cut.setUp)
    if (!record) faults.push(`cut ${cut.keep}: there is no set-up ${cut.setUp}`)
    else
      faults.push(
        ...recordFaults(cut, record, halfStep(shop.reading) + rounded(cut.stick)).map(
          (fault) => `set-up ${record.id}, cut ${cut.keep}: ${fault}`,
        ),
      )
  }
  return faults
}

function recordFaults(
  { program, section, setting, stop, kept }: ReplayedCut,
  record: SetUp,
  most: Mm,
): string[] {
  const faults: string[] = []
  const words = (['saw', 'stopSide', 'hold'] as const).filter((field) => record[field] !== program[field])
  for (const field of words) faults.push(`says ${field} ${record[field]}; its program says ${program[field]}`)
  if (sectionKey(record.section) !== sectionKey(section.section))
    faults.push(`is for ${sectionKey(record.section)}; on the saw lies ${sectionKey(section.section)}`)
  for (const angle of ['swing', 'tilt', 'roll', 'ramp'] as const)
    if (!(Math.abs(record[angle] - setting[angle]) <= sameSlope))
      faults.push(`says ${angle} ${deg(record[angle])}; the program has ${deg(setting[angle])}`)
  for (const which of ['stop', 'exact'] as const)
    if (!(Math.abs(record[which] - stop[which]) <= sameLength))
      faults.push(`says ${which} ${mm(record[which])}; the program has ${mm(stop[which])}`)
  if (!(Math.abs(record.stop - record.exact) <= most + sameLength))
    faults.push(`rounds a stop of ${mm(record.exact)} to ${mm(record.stop)}, by more than ${mm(most)}`)
  const side = longSide(kept, setting.roll)
  if (side && side !== record.longSide)
    faults.push(`says the long side lies ${sideWords(record.longSide)}; it lies ${sideWords(side)}`)
  return faults
}

const sideWords = (side: 'fence' | 'outward') => (side === 'fence' ? 'at the fence' : 'outward')

/**
 * Where the long side lies, rolled as the piece is; with parallel ends, the point that touches the stop; undefined where
 * neither is longer.
 */
function longSide(kept: Solid, roll: Deg): 'fence' | 'outward' | undefined {
  const r = toRad(roll)
  /** How x changes away from the fence along an end of the rolled piece. */
  const off = ({ p, q }: Slope) => p * Math.cos(r) - q * Math.sin(r)
  const deep = reach(kept, { p: Math.cos(r), q: Math.sin(r) })
  const longer = 2 * deep * (off(kept.trail) - off(kept.lead))
  if (Math.abs(longer) > sameLength) return longer > 0 ? 'fence' : 'outward'
  const point = off(kept.lead)
  // Square, or sloping up the section only: nothing to tell the sides apart by.
  if (Math.abs(deep * point) <= sameLength) return undefined
  return point < 0 ? 'fence' : 'outward'
}

function printedFaults(record: SetUp, shop: Shop): string[] {
  const { stop, swing, saw: sawId, printed } = record
  const faults: string[] = []
  if (!(Math.abs(printed.stop.mm - stop) <= sameLength))
    faults.push(`prints a stop of ${mm(printed.stop.mm)} for ${mm(stop)}`)
  const read = readDigits(printed.stop.text)
  const inMm = read === undefined ? Number.NaN : printed.stop.unit === 'in' ? read * inch : read
  if (!(Math.abs(inMm - stop) <= sameLength))
    faults.push(`prints “${printed.stop.text}” ${printed.stop.unit} for a stop of ${mm(stop)}`)
  faults.push(...anglesSaid(record))
  const saw = shop.saws.find(({ id }) => id === sawId)
  if (saw) {
    const shown: Deg = saw.readsAtSquare === 90 ? 90 - Math.abs(swing) : Math.abs(swing)
    const said = readDigits(printed.miter.text.replace('°', '').trim())
    if (said === undefined || !(Math.abs(said - shown) <= halfTenth))
      faults.push(`prints a miter of “${printed.miter.text}”; the scale of ${saw.name} shows ${deg(shown)}`)
  }
  return faults
}

/** The angle that words for a bevel, a cradle or a wedge say first must be the one that is set. */
function anglesSaid({ tilt, roll, ramp, printed }: SetUp): string[] {
  const said: readonly (readonly [string, Deg, string | undefined])[] = [
    ['bevel', tilt, printed.bevel?.text],
    ['roll', roll, printed.roll],
    ['ramp', ramp, printed.ramp],
  ]
  return said.flatMap(([name, angle, text]) => {
    if (angle === 0) return text === undefined ? [] : [`prints a ${name} of “${text}”; there is none`]
    const read = readDigits(/([\d.½¼¾]+)°/.exec(text ?? '')?.[1] ?? '')
    return read !== undefined && Math.abs(read - Math.abs(angle)) <= halfTenth
      ? []
      : [`prints a ${name} of “${text ?? ''}”; it is ${deg(angle)}`]
  })
}

/** Angles are shown to 0.1°. */
const halfTenth: Deg = 0.05 + sameSlope

/** Half of the smallest length that the shop reads. */
export function halfStep(reading: Reading): Mm {
  switch (reading.kind) {
    case 'mm':
      return reading.step / 2
    case 'inch-decimal':
      return (inch * 10 ** -reading.places) / 2
    case 'inch-fraction':
      return inch / reading.denominator / 2
  }
}

const signs: Readonly<Record<string, string>> = { '½': ' 1/2', '¼': ' 1/4', '¾': ' 3/4' }

/** What a person reads off the digits: `404`, `174.6`, `6 7/8`, `22½`; undefined where it is no number. */
function readDigits(text: string): number | undefined {
  const plain = text.replace(/[½¼¾]/g, (sign) => signs[sign] ?? sign).trim()
  const found = /^(\d+(?:\.\d+)?|\.\d+)?(?:(?:^|\s+)(\d+)\/(\d+))?$/.exec(plain)
  if (!found || plain === '') return undefined
  return Number(found[1] ?? 0) + (found[2] ? Number(found[2]) / Number(found[3]) : 0)
}
