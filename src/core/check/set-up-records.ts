import type { Run, SetUp } from '../plan-shapes.ts'
import { sectionKey } from '../section/section.ts'
import type { Reading, Shop } from '../shop.ts'
import { sameLength, sameSlope } from '../tolerance.ts'
import { type Deg, inch, type Mm } from '../units.ts'
import type { Replayed, ReplayedCut } from './replay.ts'
import { along, corners, reach } from './solid.ts'
import { deg, mm } from './words.ts'

/**
 * People read the set-ups, not the programs: each record must say what the program does, list the pieces that its cuts
 * make, in order, and print the same figures in digits.
 */
export function setUpFaults({ setUps }: Run, { cuts }: Replayed, shop: Shop): string[] {
  const faults: string[] = []
  const records = new Map<string, SetUp>()
  for (const setUp of setUps) {
    if (records.has(setUp.id)) faults.push(`set-up ${setUp.id} stands twice`)
    records.set(setUp.id, setUp)
    const pieces = cuts.filter((cut) => cut.setUp === setUp.id).map(({ keep }) => keep)
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
        ...recordFaults(cut, record).map((fault) => `set-up ${record.id}, cut ${cut.keep}: ${fault}`),
      )
  }
  return faults
}

function recordFaults({ program, section, setting, stop, kept }: ReplayedCut, record: SetUp): string[] {
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
  const side = longSide({ kept })
  if (side && side !== record.longSide)
    faults.push(`says the long side lies ${sideWords(record.longSide)}; it lies ${sideWords(side)}`)
  return faults
}

const sideWords = (side: 'fence' | 'outward') => (side === 'fence' ? 'at the fence' : 'outward')

/** Where the long side lies; with parallel ends, the point that touches the stop; undefined where neither is longer. */
function longSide({ kept }: Pick<ReplayedCut, 'kept'>): 'fence' | 'outward' | undefined {
  const lengths = along(kept, kept.lead, kept.trail)
  const at = (side: number) =>
    Math.max(...corners(kept).flatMap(([y], corner) => (Math.sign(y) === side ? [lengths[corner]!] : [])))
  const longer = at(-1) - at(1)
  if (Math.abs(longer) > sameLength) return longer > 0 ? 'fence' : 'outward'
  const { p } = kept.lead
  // Square, or sloping up the section only: nothing to tell the sides apart by.
  if (reach(kept, { p, q: 0 }) <= sameLength) return undefined
  return p < 0 ? 'fence' : 'outward'
}

function printedFaults({ stop, exact, swing, saw: sawId, printed }: SetUp, shop: Shop): string[] {
  const faults: string[] = []
  if (!(Math.abs(printed.stop.mm - stop) <= sameLength))
    faults.push(`prints a stop of ${mm(printed.stop.mm)} for ${mm(stop)}`)
  const read = readDigits(printed.stop.text)
  const inMm = read === undefined ? Number.NaN : printed.stop.unit === 'in' ? read * inch : read
  if (!(Math.abs(inMm - stop) <= sameLength))
    faults.push(`prints “${printed.stop.text}” ${printed.stop.unit} for a stop of ${mm(stop)}`)
  if (!(Math.abs(stop - exact) <= halfStep(shop.reading) + sameLength))
    faults.push(`rounds a stop of ${mm(exact)} to ${mm(stop)}, more than half of what the shop reads`)
  const saw = shop.saws.find(({ id }) => id === sawId)
  if (saw) {
    const shown: Deg = saw.readsAtSquare === 90 ? 90 - Math.abs(swing) : Math.abs(swing)
    const said = readDigits(printed.miter.text.replace('°', '').trim())
    if (said === undefined || !(Math.abs(said - shown) <= halfTenth))
      faults.push(`prints a miter of “${printed.miter.text}”; the scale of ${saw.name} shows ${deg(shown)}`)
  }
  return faults
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
