import type { Fact } from '../../src/core/facts.ts'
import type { Job } from '../../src/core/job.ts'
import type { Nest } from '../../src/core/nest.ts'
import type { Saw, Shop } from '../../src/core/shop.ts'

// One sound document of each kind, all fields filled, for tests that damage them one field at a time.

export const sampleJob: Job = {
  id: 'job-1',
  name: 'Side table',
  units: 'in',
  build: {
    kind: 'polygon-frame',
    params: {
      sides: 8,
      sizeKind: 'across corners',
      size: '18',
      section: { kind: 'square-tube', width: '1', wall: '16 ga', grade: 'A513' },
      laid: true,
      rows: [{ count: 4, length: '9 5/8', section: { kind: 'flat-bar', width: '1', height: '1/4' } }],
    },
  },
  quantity: 2,
  way: 'paired',
  note: 'for the porch',
  shrinkage: { miter: 0.4, butt: 0.2, flat: 0.1, saddle: 0.3 },
  from: 'job-0',
  oneStick: [['top/side-1', 'top/side-2'], ['top/side-3']],
}

export const sampleSaw: Saw = {
  id: 'saw-1',
  name: 'Saw by the door',
  blades: [
    { id: 'blade-1', name: '60 teeth', kerf: 2.5 },
    { id: 'blade-2', name: '80 teeth', kerf: 2 },
  ],
  blade: 'blade-1',
  stopSide: 'left',
  swings: 'head',
  readsAtSquare: 90,
  viseHolds: 'stick',
  leastToHold: 60,
  cleanUp: 5,
  limits: { towardStop: 45, awayFromStop: 60, bevel: 0, longestStop: 1800 },
  gang: 2,
  minutes: { head: 1, stop: 0.5, load: 1, turn: 0.2, cut: 0.5 },
}

export const sampleShop: Shop = {
  id: 'shop-1',
  name: 'A shop for tests',
  reading: { kind: 'inch-fraction', denominator: 16 },
  passes: 'balanced',
  settings: [
    {
      process: 'wire, short-circuit',
      wall: 1.65,
      joint: 'fillet',
      wire: '.030',
      gas: '75/25',
      volts: 18,
      wireSpeed: 180,
      travel: 18,
      result: 'good',
      note: 'a little cold at the corners',
    },
  ],
  says: 'stick and drop',
  mass: 'lb',
  currency: '$',
  hand: 'right',
  daylight: false,
  paper: 'Letter',
  saws: [sampleSaw],
  sections: [
    {
      section: { kind: 'square-tube', width: 25.4, height: 25.4, wall: 1.651, cornerRadius: 0 },
      name: '1 in square, 16 ga',
      measured: { width: 25.5, height: 25.4 },
      saw: 'saw-1',
      rate: { per: 'pound', cents: 98.5 },
      inHalves: { wanted: false, cents: 300, takes: 3 },
      stock: [{ length: 6096, price: 1850, count: 3 }, { length: 7315.2 }],
    },
  ],
  sheets: [{ thickness: 1.519, length: 2438.4, width: 1219.2, price: 6450, count: 2 }],
  usualLengths: [6096],
  blankAllowance: 1.5875,
  leastDrop: 150,
  longSide: 'fence',
  rootGap: 0,
  tacking: 'piece by piece',
  otherWaySaves: 2000,
  tolerance: 0.5,
  general: { linear: 'B', flat: 'F' },
  table: { length: 2000, width: 1000, clear: 100, slot: 16 },
  habitsOff: ['chips', 'mark'],
  markWith: 'scribe or stamp',
}

export const sampleNest: Nest = {
  version: 1,
  id: 'nest-1',
  solver: 'by hand 1',
  parent: 'nest-0',
  jobs: ['job-1'],
  sections: [
    {
      section: { kind: 'square-tube', width: 25.4, height: 25.4, wall: 1.651, cornerRadius: 0 },
      kerf: 2.5,
      trim: 5,
      grip: 60,
      way: 'square first',
      demand: [
        {
          job: 'job-1',
          mark: 'A',
          key: 'square-tube 25.4 trapezoid 175',
          mid: 176.5875,
          ends: [
            { p: 0, q: 0 },
            { p: 0, q: 0 },
          ],
          turns: ['none', 'over'],
          count: 2,
          perCopy: 1,
          first: 1,
        },
      ],
      stock: [
        { length: 6096, price: 1850, ends: ['mill', 'mill'] },
        { length: 3046, price: 2150, ends: ['mill', 'mill'], halfOf: 6096 },
        { length: 900, count: 1, price: 0, ends: ['cut', { p: 0.5, q: 0 }], rack: 'tablet:9' },
      ],
      sticks: [
        {
          id: 'S1',
          from: 'rack',
          rack: 'tablet:9',
          length: 900,
          price: 0,
          ends: ['cut', { p: 0.5, q: 0 }],
          way: 'square first',
          pieces: [
            {
              piece: 'A1',
              mark: 'A',
              key: 'square-tube 25.4 trapezoid 175',
              job: 'job-1',
              copy: 1,
              turn: 'none',
              ends: [
                { x: 900, p: 0, q: 0 },
                { x: 723.4125, p: 0, q: 0 },
              ],
              blank: 'A1.b',
            },
          ],
          drop: 700,
        },
      ],
      cost: 1850,
      bound: 1850,
      proved: false,
    },
  ],
}

const envelope = { v: 1, device: 'tablet', at: '2024-05-04T10:00:00.000Z', job: 'job-1', nest: 'nest-1' }
const tube = sampleNest.sections[0]!.section

/** One of every kind; among them one of an unknown kind and one of a newer version. */
export const sampleFacts: readonly Fact[] = [
  { kind: 'bought', body: { section: tube, length: 6096, count: 2, price: 1850 } },
  { kind: 'found', body: { section: tube, length: 900, ends: ['cut', 'mill'] } },
  { kind: 'accepted', body: { nest: 'nest-1' } },
  { kind: 'opened', body: { stick: 'S1', rack: 'tablet:1' } },
  {
    kind: 'cut',
    copy: 1,
    body: { stage: 'blank', key: 'k', mark: 'A', label: 'A1', from: { stick: 'S1' } },
  },
  {
    kind: 'cut',
    copy: 1,
    body: { stage: 'piece', key: 'k', mark: 'A', label: 'A1', from: { piece: 'tablet:4' } },
  },
  { kind: 'undo', body: { fact: 'tablet:5' } },
  { kind: 'kept', body: { section: tube, stick: 'S1', length: 700, ends: ['cut', { p: 0.5, q: 0 }] } },
  { kind: 'discarded', body: { rack: 'tablet:1' } },
  { kind: 'corrected', body: { rack: 'tablet:1', length: 890 } },
  { kind: 'tacked', copy: 1, body: { step: 'top/corner-1/outside' } },
  { kind: 'welded', copy: 1, body: { step: 'top/corner-1/outside' } },
  { kind: 'checked', copy: 1, body: { step: 'top/corner-1/check' } },
  { kind: 'painted', body: { coats: [1, { color: 'gray', dry: null }] } },
  { kind: 'cut', v: 2, body: { anything: 'of a later day' } },
  { kind: 'gauged', copy: 1, body: { of: 'length:top/side-1', value: 403.5 } },
  { kind: 'scrapped', body: { stick: 'S1' } },
  { kind: 'loaded', body: { stick: 'S1', length: 6110, ends: ['mill', { p: 0, q: 0.5 }] } },
  {
    kind: 'miscut',
    copy: 1,
    body: {
      stage: 'piece',
      key: 'k',
      mark: 'A',
      label: 'A1',
      from: { piece: 'tablet:5' },
      why: 'too short',
      section: tube,
      took: 0,
      left: 171.5,
      ends: ['mill', 'cut'],
    },
  },
  { kind: 'measured', body: { piece: 'tablet:5', what: 'long point', got: 174.2, wanted: 175 } },
  { kind: 'stopMoved', body: { setUp: 'A/blank/1', by: -0.8 } },
  { kind: 'bladeChanged', body: { saw: 'saw-1', blade: 'blade-2', kerf: 2 } },
  { kind: 'cutApart', copy: 1, body: { why: 'the corner was out' } },
  { kind: 'noted', copy: 1, body: { of: 'pass:top/corner-1/outside', text: 'a little cold' } },
  {
    kind: 'setTo',
    copy: 1,
    body: {
      process: 'wire, short-circuit',
      wall: 1.65,
      joint: 'outside',
      wire: '.030',
      gas: '75/25',
      volts: 18,
      wireSpeed: 180,
      travel: 18,
      note: 'fan on',
    },
  },
  { kind: 'sheetFound', body: { thickness: 1.519, length: 762, width: 508 } },
  { kind: 'sheetCorrected', body: { sheet: 'tablet:1', length: 760, width: 508 } },
  { kind: 'sheetDiscarded', body: { sheet: 'tablet:1' } },
].map((fact, seq) => ({ ...envelope, id: `tablet:${seq}`, seq, lamport: seq + 1, ...fact }))

/** The document of a full job file, plain and free to be damaged. */
export const sampleFile = (): Record<string, unknown> =>
  structuredClone({
    format: 'tube-job',
    version: 1,
    job: sampleJob,
    shop: sampleShop,
    nests: [sampleNest],
    facts: sampleFacts,
  }) as Record<string, unknown>

/** A copy of a document with the value at `path` (`shop.saws.0.kerf`) replaced, or taken out for undefined. */
export function put(document: unknown, path: string, value: unknown): unknown {
  const copy = structuredClone(document)
  const keys = path.split('.')
  const last = keys.pop() as string
  let at = copy as Record<string, unknown>
  for (const key of keys) {
    const next = at[key]
    if (typeof next !== 'object' || next === null) throw new Error(`nothing at ${key} of ${path}`)
    at = next as Record<string, unknown>
  }
  if (value === undefined) {
    if (!(last in at)) throw new Error(`nothing to take out at ${path}`)
    delete at[last]
  } else at[last] = value
  return copy
}

/** The full file with one change. */
export const damaged = (path: string, value: unknown): Record<string, unknown> =>
  put(sampleFile(), path, value) as Record<string, unknown>

/** Dotted paths of every field and list item. */
export function pathsOf(value: unknown, at = ''): string[] {
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, child]) => {
    const path = at === '' ? key : `${at}.${key}`
    return [path, ...pathsOf(child, path)]
  })
}
