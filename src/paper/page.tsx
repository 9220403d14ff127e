import type { ReactNode } from 'react'
import { fractionOf } from '../core/reading/show.ts'
import { border, footerHigh, headerHigh, type PageSize } from './size.ts'

/** A page at its true size. Header and footer say what it is, so that a page that fell off the wall finds its place. */
export function Page(props: {
  readonly page: PageSize
  readonly job: string
  readonly title: string
  readonly number: number
  readonly of: number
  readonly foot: string
  readonly children: ReactNode
}) {
  const { page } = props
  return (
    <section
      className="paper-page"
      data-page={page.name}
      aria-label={`${props.title}, page ${props.number} of ${props.of}`}
      style={{ width: `${page.wide}mm`, height: `${page.high}mm`, padding: `${border}mm` }}
    >
      <header className="paper-header" style={{ height: `${headerHigh}mm` }}>
        <span className="paper-job">{props.job}</span>
        <span>
          {props.title} {props.number}/{props.of}
        </span>
      </header>
      <div className="paper-body">{props.children}</div>
      <footer className="paper-footer" style={{ height: `${footerHigh}mm` }}>
        {props.foot}
      </footer>
    </section>
  )
}

interface FigureProps {
  readonly text: string
  readonly unit?: string
  /** The fraction behind the whole number instead of stacked: half as high. */
  readonly inLine?: boolean
}

/** A shown length or angle, every figure of one size. */
export function Figure({ text, unit, inLine = false }: FigureProps) {
  const { whole, numerator, denominator } = fractionOf(text)
  return (
    <span className="paper-figure">
      {numerator && denominator && !inLine ? (
        <>
          {whole}
          <span className="paper-fraction">
            <span>{numerator}</span>
            <span>{denominator}</span>
          </span>
        </>
      ) : (
        text
      )}
      {unit && <span className="paper-unit">{unit}</span>}
    </span>
  )
}

export const Box = () => <span className="paper-box" aria-hidden="true" />

export const mm = (length: number): string => `${length}mm`
