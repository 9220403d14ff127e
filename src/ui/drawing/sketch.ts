import type { Mm } from '../../core/units.ts'

/** Something drawn, mm on paper, y down. */
export type Item =
  /** Filled steel with its outline. */
  | { readonly kind: 'steel'; readonly d: string }
  /** A line: outline, dimension or witness, hidden edge, or the white gap of a break. */
  | { readonly kind: 'thick' | 'thin' | 'dash' | 'gap'; readonly d: string }
  | {
      readonly kind: 'text'
      readonly x: Mm
      readonly y: Mm
      readonly text: string
      readonly anchor?: 'start' | 'middle' | 'end'
      /** Height of the font; absent: `textSize`. */
      readonly size?: Mm
      readonly bold?: true
      /** Read from the right: turned a quarter to the left about its place. */
      readonly turned?: true
    }

/** A piece of a drawing, in mm on paper, that a screen, a sheet of paper and a file show alike; pieces stand one under another. */
export interface Sketch {
  readonly wide: Mm
  readonly high: Mm
  readonly items: readonly Item[]
}

/** Font height, mm: its figures are as high as the 3 mm that dimensions on paper have at least. */
export const textSize: Mm = 4.4
/** Width of a sign at the broadest that system faces set it, as a share of the font. */
export const signWide = 0.6

export const textWide = (text: string, size: Mm = textSize): Mm => text.length * size * signWide

/** Words in lines no wider than `wide`, mm. */
export function wrapped(text: string, wide: Mm, size: Mm = textSize): readonly string[] {
  const lines: string[] = []
  for (const word of text.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && textWide(`${last} ${word}`, size) <= wide)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

export const pathThrough = (points: readonly (readonly [Mm, Mm])[]): string =>
  `M${points.map(([x, y]) => `${+x.toFixed(3)} ${+y.toFixed(3)}`).join('L')}`

/** What is left of a line on both sides of words on its middle, from its lesser end: drawn through, they would read as dashes. */
export function besideWords(one: Mm, two: Mm, words: string): readonly (readonly [Mm, Mm])[] {
  const [from, to] = [Math.min(one, two), Math.max(one, two)]
  const [before, after] = [-1, 1].map((side) => (from + to) / 2 + side * (textWide(words) / 2 + 1))
  return before! > from ? [[from, before!] as const, [after!, to] as const] : []
}

export const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')

const inFile: Readonly<Record<Exclude<Item['kind'], 'text'>, string>> = {
  steel: 'fill="#fff" stroke="#000" stroke-width="0.5" stroke-linejoin="round"',
  thick: 'fill="none" stroke="#000" stroke-width="0.5"',
  thin: 'fill="none" stroke="#000" stroke-width="0.25"',
  dash: 'fill="none" stroke="#000" stroke-width="0.25" stroke-dasharray="2 1"',
  gap: 'fill="none" stroke="#fff" stroke-width="2"',
}

/** Height of pieces one under another, and where each begins. */
export function stacked(pieces: readonly Sketch[]): { readonly high: Mm; readonly tops: readonly Mm[] } {
  let high = 0
  const tops = pieces.map((piece) => {
    const top = high
    high += piece.high
    return top
  })
  return { high, tops }
}

/** White border of a file. */
const border: Mm = 5

/** Pieces of a drawing as a file of its own, black on white, at its size in mm. */
export function sketchSvg(title: string, pieces: readonly Sketch[]): string {
  const { high, tops } = stacked(pieces)
  const wide = Math.max(...pieces.map((piece) => piece.wide))
  const [w, h] = [+(wide + 2 * border).toFixed(2), +(high + 2 * border).toFixed(2)]
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}">`,
    `<title>${escaped(title)}</title>`,
    `<rect width="${w}" height="${h}" fill="#fff"/>`,
    ...pieces.flatMap(({ items }, at) => [
      `<g transform="translate(${border} ${+(border + tops[at]!).toFixed(2)})">`,
      ...items.map((item) =>
        item.kind === 'text' ? textInFile(item) : `<path d="${item.d}" ${inFile[item.kind]}/>`,
      ),
      '</g>',
    ]),
    '</svg>',
    '',
  ].join('\n')
}

function textInFile({ x, y, text, anchor, size, bold, turned }: Extract<Item, { kind: 'text' }>): string {
  const [u, v] = [+x.toFixed(2), +y.toFixed(2)]
  return [
    `<text x="${u}" y="${v}" font-size="${size ?? textSize}" font-family="sans-serif"`,
    `text-anchor="${anchor ?? 'start'}"`,
    ...(bold ? ['font-weight="700"'] : []),
    ...(turned ? [`transform="rotate(-90 ${u} ${v})"`] : []),
    `paint-order="stroke" stroke="#fff" stroke-width="0.8">${escaped(text)}</text>`,
  ].join(' ')
}
