// `node scripts/nest-figures.mjs`, after `npm run bench`: puts what the bench measured into docs/nest.md (between its
// marks) and draws docs/pictures/nest-growth.svg.
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { root } from './stages.mjs'

/** @typedef {{ parts: number, lengths: number, sticks: number, ms: number, proved: number }} Growth */
/** @typedef {{ sticks: number, cost: number, ms: number, proved?: boolean }} Answer */

const bench = JSON.parse(readFileSync(join(root, 'node_modules/.cache/longpoint/nest-bench.json'), 'utf8'))

/** @param {readonly string[]} head @param {readonly (readonly (string | number)[])[]} rows */
function table(head, rows) {
  const all = [head, ...rows.map((row) => row.map(String))]
  const widths = head.map((_, at) => Math.max(3, ...all.map((row) => row[at]?.length ?? 0)))
  /** @param {readonly string[]} row */
  const line = (row) =>
    `| ${row.map((cell, at) => (at === 0 ? cell.padEnd(widths[at] ?? 0) : cell.padStart(widths[at] ?? 0))).join(' | ')} |`
  const rule = widths.map((width, at) => (at === 0 ? '-'.repeat(width) : `${'-'.repeat(width - 1)}:`))
  return [head, rule, ...all.slice(1)].map(line).join('\n')
}

const classes = table(
  [
    'class',
    'problems',
    'proved in 10 s',
    'within 1 s',
    'fewest sticks proved',
    'median ms',
    'p95 ms',
    'most ms',
  ],
  bench.classes.map((/** @type {any} */ each) => [
    each.name,
    each.runs,
    each.proved,
    each.within1,
    each.sticksProved,
    each.median,
    each.p95,
    each.most,
  ]),
)
/** @param {readonly Growth[]} rows */
const growth = (rows) =>
  table(
    ['parts', 'distinct lengths', 'ms', 'proved of 3'],
    rows.map((row) => [row.parts, row.lengths, row.ms, row.proved]),
  )
/** @param {Answer | undefined} answer @param {number} per */
const answer = (answer, per) =>
  answer
    ? `${answer.sticks} / ${answer.cost / per} / ${answer.ms < 10 ? answer.ms.toFixed(1) : Math.round(answer.ms)}`
    : 'none'
const side = table(
  ['problem', 'pieces', 'first fit', 'assignment model', 'ours', 'proved'],
  bench.side.map((/** @type {any} */ each) => {
    const per = each.name.startsWith('order') ? 100 : 1600
    return [
      each.name,
      each.pieces,
      answer(each.firstFit, per),
      answer(each.assignment, per),
      answer(each.ours, per),
      each.ours.proved ? 'yes' : 'no',
    ]
  }),
)

const page = join(root, 'docs/nest.md')
let text = readFileSync(page, 'utf8')
/** @param {string} name @param {string} body */
function put(name, body) {
  const [from, to] = [`<!-- ${name} -->`, `<!-- end of ${name} -->`]
  const [start, end] = [text.indexOf(from), text.indexOf(to)]
  if (start < 0 || end < start) throw new Error(`docs/nest.md has no place for ${name}`)
  text = `${text.slice(0, start + from.length)}\n\n${body}\n\n${text.slice(end)}`
}
const most = Math.max(...bench.classes.map((/** @type {any} */ each) => each.runs))
put(
  'when',
  `Measured on ${bench.when}: ${bench.machine}. CPU time of one core while other work ran; at most ${most} problems of a class.`,
)
put('classes', classes)
put(
  'growth by parts',
  `![Time against parts and against distinct lengths](pictures/nest-growth.svg)\n\n${growth(bench.growth.byParts)}`,
)
put('growth by lengths', growth(bench.growth.byLengths))
put('side by side', side)
writeFileSync(page, text)

// Two lines over logarithmic axes: time against parts, time against distinct lengths.
const [width, height, left, top, right, bottom] = [720, 380, 70, 30, 30, 60]
const decades = 4
/** @param {number} value 1 … 10 000 */
const x = (value) => left + ((width - left - right) * Math.log10(value)) / decades
/** @param {number} ms 1 … 10 000 */
const y = (ms) => height - bottom - ((height - top - bottom) * Math.log10(Math.max(1, ms))) / decades
/** @param {readonly Growth[]} rows @param {'parts' | 'lengths'} by @param {string} color @param {string} dash @param {string} words */
function line(rows, by, color, dash, words) {
  const points = rows.map((row) => `${x(row[by]).toFixed(1)},${y(row.ms).toFixed(1)}`)
  const [endX, endY] = /** @type {string} */ (points.at(-1)).split(',')
  return [
    `<polyline points="${points.join(' ')}" fill="none" stroke="${color}" stroke-width="2.5" stroke-dasharray="${dash}"/>`,
    ...points.map(
      (point) => `<circle cx="${point.split(',')[0]}" cy="${point.split(',')[1]}" r="4" fill="${color}"/>`,
    ),
    `<text x="${endX}" y="${Number(endY) - 12}" text-anchor="end" fill="${color}">${words}</text>`,
  ].join('\n')
}
const ticks = [1, 10, 100, 1000, 10_000]
const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" font-family="sans-serif" font-size="14">
<title>Time to nest and prove, against the number of parts and of distinct lengths</title>
<rect width="${width}" height="${height}" fill="#fff"/>
${ticks.map((tick) => `<path d="M${x(tick)} ${top}V${height - bottom}M${left} ${y(tick)}H${width - right}" stroke="#ddd"/><text x="${x(tick)}" y="${height - bottom + 20}" text-anchor="middle">${tick}</text><text x="${left - 8}" y="${y(tick) + 5}" text-anchor="end">${tick}</text>`).join('\n')}
<text x="${(left + width - right) / 2}" y="${height - 15}" text-anchor="middle">parts, or distinct lengths</text>
<text x="18" y="${(top + height - bottom) / 2}" text-anchor="middle" transform="rotate(-90 18 ${(top + height - bottom) / 2})">ms</text>
${line(bench.growth.byParts, 'parts', '#1a56b0', '0', 'parts, of 10 lengths')}
${line(bench.growth.byLengths, 'lengths', '#a33b00', '7 4', 'distinct lengths, of 400 parts')}
</svg>
`
writeFileSync(join(root, 'docs/pictures/nest-growth.svg'), svg)
