import { tickName } from '../facts/fold.ts'
import type { Fact, Progress } from '../facts.ts'
import type { Job } from '../job.ts'
import type { Plan } from '../plan-shapes.ts'
import { say, showMass, unitOf } from '../reading/show.ts'
import { sectionName } from '../section/name.ts'
import type { Reading, Shop } from '../shop.ts'
import { inch, type Mm } from '../units.ts'
import { weldMetal } from '../weld/metal.ts'
import { usualProcess } from '../weld/settings-book.ts'
import { drawnKinds } from '../weld/shrinkage.ts'
import { finishSteps } from './steps.ts'
import { minutesName, pause, stages, timesOf } from './times.ts'

// The build record of one copy: what was asked, planned and measured, set, noted, and how long it took, in words. The
// screen, the sheet and the text all show these rows.

export interface RecordSection {
  readonly title: string
  /** Heads of the columns after the first; absent: each row is a name and what is said of it. */
  readonly columns?: readonly string[]
  /** The first is the name of the row; a figure that is not known is empty. */
  readonly rows: readonly (readonly string[])[]
}

/** What a record is made from. */
export interface Recorded {
  readonly plan: Plan
  readonly job: Job
  readonly shop: Shop
  readonly progress: Progress
  readonly facts: readonly Fact[]
  readonly copy: number
  /** How a time of the log is said where the person is. */
  readonly sayTime: (at: string) => string
}

/** Measured figures are said to 0.1 mm or 1/64 in. */
const fine = (mm: Mm, reading: Reading): string =>
  say(mm, unitOf(reading) === 'mm' ? { kind: 'mm', step: 0.1 } : { kind: 'inch-fraction', denominator: 64 })

/** What one joint draws in: to 0.01 mm or 0.001 in. */
export const sayDrawn = (mm: Mm, reading: Reading): string =>
  unitOf(reading) === 'mm' ? `${mm.toFixed(2)} mm` : `${(mm / inch).toFixed(3)} in`

export const sayKind = { miter: 'mitered', butt: 'butted', flat: 'flat-cut', saddle: 'saddled' } as const

/** How much more or less than wanted; empty where one of them is not known. */
function off(got: Mm | undefined, wanted: Mm | undefined, reading: Reading): string {
  if (got === undefined || wanted === undefined) return ''
  const more = got - wanted
  const text = fine(Math.abs(more), reading)
  return /^0(\.0)? /.test(text) ? 'none' : `${text} ${more > 0 ? 'more' : 'less'}`
}

/** `top/corner-3` → `corner 3`. */
const plain = (id: string): string =>
  id
    .slice(id.indexOf('/') + 1)
    .replaceAll(/(\d)-(\d)/g, '$1 to $2')
    .replaceAll('-', ' ')
    .replaceAll('/', ' to ')

/** The words of a note or a figure by the name that it is kept under. */
export function placeOf(of: string, { plan, progress }: Pick<Recorded, 'plan' | 'progress'>): string {
  if (of === 'job') return 'The whole'
  const step = [...plan.weld.steps, ...finishSteps(plan.frame, plan.weld)].find(({ id }) => id === of)
  if (step) return step.text
  const piece = progress.made.find(({ id }) => id === of)
  return piece ? piece.label : plain(of)
}

export function buildRecord(recorded: Recorded): readonly RecordSection[] {
  const { plan, job, shop, progress, facts, copy, sayTime } = recorded
  const { reading } = shop
  const own = `${job.id}/${copy}/`
  const gauged = (of: string) => progress.gauged[tickName(job.id, copy, of)]?.value

  const sizes = plan.sizes.map((size): readonly string[] => {
    const got = gauged(`size:${size.name}`)
    return [
      size.name,
      size.asked ? say(size.exact, reading) : '',
      fine(size.built, reading),
      got === undefined ? '' : fine(got, reading),
      off(got, size.exact, reading),
    ]
  })

  const made = new Map(progress.made.filter((one) => one.job === job.id).map((one) => [one.id, one]))
  const pieces = Object.entries(progress.measured).flatMap(([name, { got, wanted }]): string[][] => {
    const [id = '', what = ''] = [name.slice(0, name.indexOf('/')), name.slice(name.indexOf('/') + 1)]
    const piece = made.get(id)
    if (!piece) return []
    return [
      [
        `${piece.label}, ${what}`,
        '',
        wanted === undefined ? '' : fine(wanted, reading),
        fine(got, reading),
        off(got, wanted, reading),
      ],
    ]
  })

  const bench = Object.entries(progress.gauged).flatMap(([name, { value }]): string[][] => {
    if (!name.startsWith(own)) return []
    const of = name.slice(own.length)
    const word = of.slice(0, of.indexOf(':'))
    if (word === 'size' || word === 'minutes') return []
    const place = of.includes('check:') ? placeOf(of.slice(of.indexOf(':') + 1), recorded) : plain(of)
    const isAngle = word === 'angle' || word === 'ends'
    return [[`${word}: ${place}`, isAngle ? `${value}°` : fine(value, reading)]]
  })

  const settings = Object.entries(progress.settings).flatMap(([name, set]): string[][] =>
    name.startsWith(own) ? [[`${set.joint}, wall ${say(set.wall, reading)}`, sayMachine(set)]] : [],
  )

  const shrinkage = drawnKinds.flatMap((kind): string[][] => {
    const mm = job.shrinkage?.[kind]
    return mm === undefined
      ? []
      : [[`Planned for each ${sayKind[kind]} joint to draw in`, sayDrawn(mm, reading)]]
  })
  const spoiled = progress.spoiled
    .filter((one) => one.job === job.id)
    .map(({ label, why }): string[] => [`Miscut ${label}`, why])

  const clock = timesOf(facts, job.id, copy)
  const times = stages.map((stage): readonly string[] => {
    const told = clock.find((one) => one.stage === stage)
    const given = gauged(minutesName(stage))
    return [
      stage === 'saw' && plan.quantity > 1 ? `saw, all ${plan.quantity} copies` : stage,
      told ? sayTime(told.first) : '',
      told ? sayTime(told.last) : '',
      told && told.minutes >= 1 ? `${Math.round(told.minutes)} min` : '',
      given === undefined ? '' : String(given),
    ]
  })

  const notes = Object.entries(progress.notes).flatMap(([name, { text }]): string[][] =>
    name.startsWith(own) ? [[placeOf(name.slice(own.length), recorded), text]] : [],
  )
  const jobNote = job.note ? [['The job', job.note]] : []

  const done = (ids: readonly { readonly id: string }[]) =>
    `${ids.filter(({ id }) => progress.ticked[tickName(job.id, copy, id)] !== undefined).length} of ${ids.length}`
  const finish = finishSteps(plan.frame, plan.weld)
  const sections: readonly RecordSection[] = [
    { title: 'Sizes', columns: ['asked', 'planned', 'measured', 'off'], rows: sizes },
    { title: 'Pieces measured at the saw', columns: ['', 'set', 'measured', 'off'], rows: pieces },
    { title: 'Measured at fit-up and weld', rows: bench },
    { title: 'Machine settings', rows: settings },
    {
      title: 'Steel',
      rows: [
        ...[...new Set(plan.parts.map(({ section }) => sectionName(section, reading)))].map((name) => [
          'Section',
          name,
        ]),
        ['Weld metal, about', showMass(weldMetal(plan.weld.seams), shop.mass)],
        ...shrinkage,
        ...spoiled,
      ],
    },
    {
      title: `Time (pauses over ${pause} min left out)`,
      columns: ['from', 'to', 'by the clock', 'minutes'],
      rows: times,
    },
    { title: 'Notes', rows: [...jobNote, ...notes] },
    {
      title: 'Steps done',
      rows: [
        ['Weld', done(plan.weld.steps)],
        ['Finish', done(finish)],
      ],
    },
  ]
  return sections.filter(({ rows }) => rows.length > 0)
}

/** `18 V, wire .030, 180 in/min of wire, 75/25, travel 18 in/min`. */
export const sayMachine = (set: Progress['settings'][string]): string =>
  [
    ...(set.process === usualProcess ? [] : [set.process]),
    `${set.volts} V`,
    `wire ${set.wire}`,
    `${set.wireSpeed} in/min of wire`,
    set.gas,
    ...(set.travel === undefined ? [] : [`travel ${set.travel} in/min`]),
    ...(set.note ? [set.note] : []),
  ].join(', ')

/** The record as plain text, to paste or to send: a line for each row, columns named in it. */
export function recordText(recorded: Recorded): string {
  const { job, copy, plan } = recorded
  const head = `${job.name}${plan.quantity > 1 ? `, copy ${copy} of ${plan.quantity}` : ''}: build record`
  const lines = buildRecord(recorded).flatMap(({ title, columns, rows }) => [
    '',
    title,
    ...rows.map(([name = '', ...cells]) => {
      const said = cells.flatMap((cell, at) => {
        const column = columns?.[at]
        return cell === '' ? [] : [column ? `${column} ${cell}` : cell]
      })
      return `  ${name}: ${said.length > 0 ? said.join(', ') : 'not known'}`
    }),
  ])
  return `${[head, ...lines].join('\n')}\n`
}
