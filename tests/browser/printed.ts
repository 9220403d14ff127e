// What a sheet measures once it is printed: lines and corners of a PDF page in mm, as a PDF reader draws them.
import { execFileSync } from 'node:child_process'

export interface Line {
  readonly long: number
  /** Degrees from level, 0 … 90. */
  readonly slope: number
}

/** Every straight stretch of every path of one page. */
export function linesOf(pdf: string, page: number): Line[] {
  const at = ['-f', `${page}`, '-l', `${page}`]
  const svg = execFileSync('pdftocairo', ['-svg', ...at, pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 26 })
  const lines: Line[] = []
  for (const [, tag] of svg.matchAll(/<path ([^>]*)\/>/g)) {
    const d = / d="([^"]*)"/.exec(` ${tag}`)?.[1] ?? ''
    const [a = 1, b = 0, c = 0, e = 1] = (/matrix\(([^)]*)\)/.exec(tag!)?.[1] ?? '')
      .split(/[ ,]+/)
      .filter(Boolean)
      .map(Number)
    let here: readonly [number, number] | undefined
    let start: readonly [number, number] | undefined
    for (const [, kind, numbers] of d.matchAll(/([MLZC])([^MLZC]*)/g)) {
      const [x, y] = numbers!.trim().split(/[ ,]+/).slice(-2).map(Number)
      const to = kind === 'Z' ? start : ([x!, y!] as const)
      if (to && here && (kind === 'L' || kind === 'Z')) {
        const [dx, dy] = [to[0] - here[0], to[1] - here[1]]
        const [across, down] = [a * dx + c * dy, b * dx + e * dy].map((pt) => Math.abs((pt / 72) * 25.4))
        lines.push({
          long: Math.hypot(across!, down!),
          slope: (Math.atan2(down!, across!) * 180) / Math.PI,
        })
      }
      if (kind === 'M') start = to
      here = to
    }
  }
  return lines
}

export const pagesOf = (pdf: string): number =>
  Number(/Pages:\s+(\d+)/.exec(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' }))?.[1])
