import { Fragment, type ReactNode } from 'react'
import type { Member } from '../core/frame/frame.ts'
import type { End } from '../core/frame/member.ts'
import type { Part, Plan } from '../core/plan-shapes.ts'
import { decimals } from '../core/reading/round.ts'
import type { Mm } from '../core/units.ts'
import { Bars, barsFoot, barsHigh } from './bars.tsx'
import { type Block, flow } from './flow.ts'
import { Heading, numbered, orderName } from './page.tsx'
import {
  lap,
  type OnPaper,
  onTile,
  paperThick,
  type Template,
  type Tile,
  templateOf,
  tilesOf,
} from './saddle.ts'
import { bodyHigh, bodyWide, lineHigh, linesOf, type PageSize } from './size.ts'

// Templates of saddles at 1:1: wrapped round the tube, they mark what is worked away after the saw.

interface Wrapped {
  readonly part: Part
  readonly template: Template
  /** Names of what it fits, and how many pieces it serves. */
  readonly title: string
}

/** A part of a template, the first one under the words that say how to use it. */
interface SaddleStrip {
  readonly text?: string
  readonly tile: Tile
  readonly of: Wrapped
}

/** Half of the thickest line, so that none is cut off at the edge. */
const margin: Mm = 1
/** Room above and below a tile for its words and quarter marks. */
const rim: Mm = 7

const words = ({ sawn, line }: Template): string =>
  `Wrap it round the tube, print outside, the side edges meeting on ${
    line.from === undefined
      ? 'one line along it, the same line for both ends'
      : `the line along it from the long point of end ${line.from}`
  }. ` +
  `The ${sawn.length > 0 ? 'dashed line' : 'top edge'} lies along the sawn end; work away what is hatched.`

export const hasSaddles = ({ parts }: Plan): boolean => parts.some(({ saddles }) => saddles !== undefined)

function wrappedOf(plan: Plan): Wrapped[] {
  const members = new Map(plan.frame.members.map((each) => [each.id, each]))
  return plan.parts
    .filter(({ saddles }) => saddles !== undefined)
    .flatMap((part) => {
      const first = members.get(part.members[0] ?? '')
      if (!first) return []
      return (['A', 'B'] as const).flatMap((end) => {
        const saddle = first.ends[end === 'A' ? 0 : 1].saddle
        if (!saddle) return []
        return [{ part, template: templateOf(first, end), title: titleOf(plan, part, first, end, members) }]
      })
    })
}

function titleOf(
  plan: Plan,
  part: Part,
  first: Member,
  end: End,
  members: ReadonlyMap<string, Member>,
): string {
  const on = first.ends[end === 'A' ? 0 : 1].saddle!.on
  const count = part.count * plan.quantity
  const fits = count > 1 ? `${count} pieces` : `on ${members.get(on)?.name ?? on}`
  return `${part.mark}, end ${end}: ${fits}`
}

export function saddleSheet(plan: Plan, page: PageSize): ReactNode[] {
  const wide = bodyWide(page)
  const high = bodyHigh(page) - barsHigh
  const blocks = wrappedOf(plan).map((of): Block<string, SaddleStrip> => {
    const text = words(of.template)
    const head = { high: linesOf(of.title, wide, 'bold') * lineHigh + 4, what: of.title }
    const said = linesOf(text, wide) * lineHigh + 1
    const room = high - head.high - said - 2 * rim - 1
    const tiles = tilesOf(of.template, wide - 2 * margin, room)
    return {
      head,
      strips: tiles.map((tile, at) => ({
        high: tile.high + 2 * rim + (at === 0 ? said : 0),
        what: at === 0 ? { text, tile, of } : { tile, of },
      })),
    }
  })
  if (blocks.length === 0) return []
  const pages = flow(blocks, high)
  return numbered({ page, job: orderName(plan), title: 'Saddles', foot: barsFoot }, pages, (on) => (
    <>
      <div style={{ height: `${high}mm` }}>
        {on.map(({ head, again, strips }) => (
          <article key={head}>
            <Heading text={head} again={again} />
            {strips.map(({ text, tile, of }) => (
              <Fragment key={`${tile.column} ${tile.row}`}>
                {text && <p>{text}</p>}
                <Drawn tile={tile} of={of} />
              </Fragment>
            ))}
          </article>
        ))}
      </div>
      <Bars note={`; paper ${paperThick} mm`} />
    </>
  ))
}

const path = (line: readonly OnPaper[]): string =>
  line.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${x.toFixed(3)} ${y.toFixed(3)}`).join('')

/** Every 3 mm, from the sawn end down to the saddle: what is worked away. */
function hatching({ saddle, sawn, round }: Template): OnPaper[][] {
  const lines: OnPaper[][] = []
  for (let s = 1.5; s < round; s += 3) {
    const [from, to] = [sawn.length > 0 ? heightAt(sawn, s) : 0, heightAt(saddle, s)]
    if (to - from > 0.5)
      lines.push([
        [s, from],
        [s, to],
      ])
  }
  return lines
}

function heightAt(line: readonly OnPaper[], s: Mm): Mm {
  const after = Math.max(
    1,
    line.findIndex(([at]) => at >= s),
  )
  const [[x, y], [u, v]] = [line[after - 1]!, line[after]!]
  return u === x ? v : y + ((v - y) * (s - x)) / (u - x)
}

function Drawn({ tile, of: { part, template } }: { readonly tile: Tile; readonly of: Wrapped }) {
  const { round, high, end, saddle, sawn } = template
  const lastColumn = tile.column === tile.columns - 1
  const lastRow = tile.row === tile.rows - 1
  const lines = (all: readonly (readonly OnPaper[])[]) =>
    all
      .flatMap((line) => onTile(line, tile))
      .map(path)
      .join('')
  const frame: OnPaper[][] = [
    [
      [0, 0],
      [round, 0],
    ],
    [
      [0, high],
      [round, high],
    ],
    [
      [0, 0],
      [0, high],
    ],
    [
      [round, 0],
      [round, high],
    ],
  ]
  const quarters = [1, 2, 3].map((k) => (round * k) / 4)
  const ticks = quarters.map((s): OnPaper[] => [
    [s, high - 10],
    [s, high],
  ])
  const here = quarters
    .map((s, k) => ({ s: s - tile.left, k: k + 1 }))
    .filter(({ s }) => s > 0 && s < tile.wide)
  const name = `${part.mark} ${end}`
  const parts = tile.columns * tile.rows
  const number = tile.row * tile.columns + tile.column + 1
  const wide = tile.wide + 2 * margin
  const outer = tile.high + 2 * rim
  return (
    <svg
      className="saddle-paper"
      role="img"
      aria-label={`Template of ${part.mark}, end ${end}${parts > 1 ? `, part ${number} of ${parts}` : ''}`}
      viewBox={`${-margin} ${-rim} ${wide} ${outer}`}
      style={{ width: `${wide}mm`, height: `${outer}mm` }}
    >
      <path className="saddle-hatch" d={lines(hatching(template))} />
      <path className="saddle-edge" d={lines([...frame, ...ticks])} />
      <path className="saddle-line" d={lines([saddle])} />
      {sawn.length > 0 && <path className="saddle-sawn" d={lines([sawn])} />}
      {tile.row === 0 && (
        <text className="saddle-word" x={1} y={-1.5}>
          {sawn.length > 0 ? '' : 'this edge on the sawn end, '}line at both sides
        </text>
      )}
      {lastRow &&
        here.map(({ s, k }) => (
          <text className="saddle-quarter" key={k} x={s + 1} y={tile.high - 1.5}>
            {k === 2 ? '½' : k === 1 ? '¼' : '¾'}
          </text>
        ))}
      {lastRow && (
        <text className="saddle-word" x={1} y={tile.high + 5}>
          {name}, ⌀ {decimals(template.diameter, 2)} mm{parts > 1 ? `, ${number} of ${parts}` : ''}, this edge
          toward end {end === 'A' ? 'B' : 'A'}
        </text>
      )}
      {!lastColumn && (
        <Match name="→" place={tile.column + 1} along={[tile.wide - lap, tile.high / 2]} down />
      )}
      {tile.column > 0 && <Match name="→" place={tile.column} along={[0, tile.high / 2]} down />}
      {!lastRow && <Match name="↓" place={tile.row + 1} along={[tile.wide / 2, tile.high - lap]} />}
      {tile.row > 0 && <Match name="↓" place={tile.row} along={[tile.wide / 2, 0]} />}
    </svg>
  )
}

/** Where two parts are laid on each other: the same line and the same mark on both. */
function Match(props: {
  readonly name: string
  readonly place: number
  readonly along: OnPaper
  readonly down?: boolean
}) {
  const [x, y] = props.along
  return (
    <g>
      <path
        className="saddle-match"
        d={props.down ? `M${x} ${y - 12}V${y + 12}M${x} ${y}h4` : `M${x - 12} ${y}H${x + 12}M${x} ${y}v4`}
      />
      <text className="saddle-word" x={x + 1} y={y - 2}>
        {props.place}
      </text>
    </g>
  )
}
