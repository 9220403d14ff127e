import { type NestSection, piecesIn } from '../core/nest.ts'
import type { Plan, Shown } from '../core/plan-shapes.ts'
import { say } from '../core/reading/show.ts'
import { withWays } from '../core/saw/left.ts'
import type { WayOffer } from '../core/saw/offer.ts'
import { sectionName } from '../core/section/name.ts'
import type { Shop } from '../core/shop.ts'
import { table } from './table.ts'

// The plan as a person reads it in a terminal: what to cut, from what, how the saw is set, what to mind.

const sayShown = ({ text, unit, lies }: Shown): string => `${text} ${unit}${lies ? ` ${lies}` : ''}`

const block = (title: string, lines: readonly string[]): string[] =>
  lines.length === 0 ? [] : ['', title, ...lines.map((line) => `  ${line}`)]

function sizes(plan: Plan): string[] {
  const asked = plan.sizes.filter((size) => size.asked)
  return asked.map(
    ({ name, printed }) =>
      `${sayShown(printed.exact)} ${name} asked for; the lengths below give ${sayShown(printed.built)}`,
  )
}

function parts(plan: Plan, shop: Shop): string[] {
  const rows = plan.parts.map((part) => [
    part.mark,
    `${part.count} ×`,
    part.name,
    sectionName(part.section, shop.reading),
    `${part.printed.primary} ${sayShown(part.printed.length)}`,
    `short ${sayShown(part.printed.shortPoint)}`,
    part.printed.angles.map(({ text }) => text).join(' / '),
    part.saddles ? `${part.shape}, saddle ${part.saddles}` : part.shape,
    part.printed.mass,
  ])
  return table(rows, [1, 8])
}

/** How good a nest is, in the words that the screens use. */
function howGood({ cost, bound, proved }: NestSection): string {
  if (proved) return 'proved least'
  if (bound <= 0) return 'best found'
  const over = Math.ceil(((cost - bound) / bound) * 1000) / 10
  return `at most ${over} % from the least possible`
}

function costOf(section: NestSection, shop: Shop): string {
  const priced = section.stock.some((stock) => stock.rack === undefined && stock.price !== undefined)
  return priced
    ? `${shop.currency} ${(section.cost / 100).toFixed(2)}`
    : `${say(section.cost, shop.reading)} bought`
}

/** `A1 to A6, B1 B2`: ids of one mark and stage together, a row of numbers by its ends. */
export function spans(ids: readonly string[]): string {
  const groups = new Map<string, string[]>()
  for (const id of ids) {
    const kind = id.replace(/\d+/, '#')
    groups.set(kind, [...(groups.get(kind) ?? []), id])
  }
  return [...groups.values()].map(span).join(', ')
}

function span(ids: readonly string[]): string {
  const numbers = ids.map((id) => Number(/\d+/.exec(id)?.[0] ?? Number.NaN))
  const step = numbers.length > 1 ? numbers[1]! - numbers[0]! : 0
  const inRow = numbers.every((number, at) => at === 0 || number - numbers[at - 1]! === step)
  return ids.length > 2 && Math.abs(step) === 1 && inRow ? `${ids[0]} to ${ids.at(-1)}` : ids.join(' ')
}

const count = (many: number, one: string): string => `${many} ${one}${many === 1 ? '' : 's'}`

function nests(plan: Plan, shop: Shop): string[] {
  const lines: string[] = []
  const stickWord = shop.says === 'stick and drop' ? 'stick' : 'length'
  const dropWord = shop.says === 'stick and drop' ? 'drop' : 'offcut'
  for (const section of plan.nest?.sections ?? []) {
    lines.push(
      `${sectionName(section.section, shop.reading)}: ${count(section.sticks.length, stickWord)}, ` +
        `${costOf(section, shop)}, ${howGood(section)}`,
    )
    const rows = section.sticks.map((stick) => [
      stick.id,
      stick.from === 'buy' ? 'buy' : `rack ${stick.rack ?? ''}`,
      say(stick.length, shop.reading),
      spans(stick.pieces.flatMap(piecesIn).map(({ piece }) => piece)),
      `${dropWord} ${say(stick.drop, shop.reading)}`,
    ])
    lines.push(...table(rows, [2]).map((line) => `  ${line}`))
  }
  return lines
}

function setUps(plan: Plan, shop: Shop): string[] {
  const saws = new Map(shop.saws.map((saw) => [saw.id, saw.name]))
  return (plan.run?.setUps ?? []).flatMap((setUp, index) => {
    const { printed } = setUp
    const miter = `miter ${printed.miter.text} ${printed.lean}`.trim()
    const bevel = printed.bevel && `bevel ${printed.bevel.text}, ${printed.bevelLean ?? ''}`
    const words = [
      `${index + 1}. ${saws.get(setUp.saw) ?? setUp.saw}: ${miter}; stop ${sayShown(printed.stop)} on the ${setUp.stopSide}`,
      ...[bevel, printed.roll, printed.ramp, printed.longSide, printed.seam, printed.turn]
        .filter((line) => line !== undefined && line !== '')
        .map((line) => `   ${line}`),
      ...(setUp.gang
        ? [
            `   ${setUp.gang.count} sticks lie side by side here: saves about ${count(Math.round(setUp.gang.saves), 'minute')}`,
          ]
        : []),
      `   ${count(setUp.pieces.length, 'cut')}: ${spans(setUp.pieces)}`,
    ]
    return words
  })
}

/** What the run is made of, and how long it takes. */
function work({ run }: Plan): string[] {
  if (!run) return []
  const { heads, stops, loads, turns, cuts, minutes } = run.work
  const counts = [
    count(heads, 'head change'),
    count(stops, 'stop move'),
    count(loads, 'load'),
    count(turns, 'turn'),
    count(cuts, 'cut'),
  ]
  return [`${counts.join(', ')}: about ${count(Math.round(minutes), 'minute')} by the figures of this shop`]
}

/** The ways of cutting side by side, where there is more than one. */
function ways(plan: Plan, shop: Shop, offers: readonly WayOffer[]): string[] {
  if (offers.length < 2) return []
  const chosen = plan.nest?.sections[0]?.way
  const stickWord = shop.says === 'stick and drop' ? 'stick' : 'length'
  const dropWord = shop.says === 'stick and drop' ? 'drops' : 'offcuts'
  const rows = offers.map(({ way, sticks, cost, priced, drop, work: done, left: byHand }) => [
    `${way}${way === chosen ? ' (this plan)' : ''}`,
    `${count(sticks, stickWord)} to buy`,
    priced ? `${shop.currency} ${(cost / 100).toFixed(2)}` : say(cost, shop.reading),
    `${dropWord} ${say(drop, shop.reading)}`,
    count(done.cuts, 'cut'),
    count(done.heads, 'head change'),
    count(done.stops, 'stop move'),
    count(done.loads, 'load'),
    count(done.turns, 'turn'),
    `${count(Math.round(done.minutes), 'minute')}${byHand > 0 ? `, ${byHand} by hand` : ''}`,
  ])
  return table(rows)
}

/** Pieces that no saw of the shop finishes, all for one reason together. */
function left({ run }: Plan): string[] {
  const reasons = new Map<string, string[]>()
  for (const { piece, why, ways } of run?.left ?? []) {
    const text = withWays(why, ways)
    reasons.set(text, [...(reasons.get(text) ?? []), piece])
  }
  return [...reasons].map(([text, pieces]) => `${spans(pieces)}: ${text}`)
}

function landings(plan: Plan): string[] {
  const markOf = new Map(plan.parts.flatMap((part) => part.members.map((id) => [id, part.mark] as const)))
  const named = (id: string) => `${markOf.get(id) ?? ''} ${id}`.trim()
  const rows = plan.landings.map(({ on, by, face, from, printed }) => [
    named(by),
    `on ${named(on)}`,
    `face ${face}`,
    `from end ${from}`,
    `${sayShown(printed.near)} to ${sayShown(printed.far)}`,
  ])
  return table(rows)
}

/** Equal lines once, with how many there are. */
function counted(lines: readonly { readonly count: number; readonly text: string }[]): string[] {
  const counts = new Map<string, number>()
  for (const { count, text } of lines) counts.set(text, (counts.get(text) ?? 0) + count)
  return [...counts].map(([text, count]) => `${count} × ${text}`)
}

/** The whole plan in words and tables, for standard output. */
export function planText(plan: Plan, shop: Shop, offers: readonly WayOffer[] = []): string {
  const hardware = counted(
    plan.frame.hardware.map(({ kind, count, text }) => ({ count, text: text ? `${kind}: ${text}` : kind })),
  )
  const plates = counted(
    plan.plates.map(({ mark, name, text }) => ({ count: 1, text: `${mark}  ${name}  ${text}` })),
  )
  return `${[
    `${plan.name}, ${plan.quantity} of it, in the shop “${shop.name}”`,
    ...sizes(plan),
    ...block('Parts of one', parts(plan, shop)),
    ...block('Plates and sheets of one', plates),
    ...block('Hardware of one', hardware),
    ...block('Steel', nests(plan, shop)),
    ...block('Ways of cutting', ways(plan, shop, offers)),
    ...block('Left to the hand', left(plan)),
    ...block('Set-ups in the order of work', [...setUps(plan, shop), ...work(plan)]),
    ...block('Layout marks', landings(plan)),
    ...block(
      'Mind',
      plan.warnings.map(({ text }) => text),
    ),
  ].join('\n')}\n`
}
