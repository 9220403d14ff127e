import type { ReactNode } from 'react'
import type { Plan } from '../core/plan-shapes.ts'
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

interface SheetProps {
  readonly page: PageSize
  readonly job: string
  readonly title: string
  readonly foot: string
}

/** The pages of a sheet, each with its number and how many there are; `drawn` gives what stands on one. */
export function numbered<T>(sheet: SheetProps, pages: readonly T[], drawn: (on: T) => ReactNode) {
  return pages.map((on, at) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: pages have no other name than their number
    <Page key={at} {...sheet} number={at + 1} of={pages.length}>
      {drawn(on)}
    </Page>
  ))
}

/** The job on a sheet that is for the whole order, not for each copy. */
export const orderName = ({ name, quantity }: Pick<Plan, 'name' | 'quantity'>): string =>
  quantity > 1 ? `${name} × ${quantity}` : name

/** What a block is about, said again where it goes on over the page. */
export function Heading({ text, again }: { readonly text: string; readonly again: boolean }) {
  return (
    <h2 className="paper-heading">
      {text}
      {again ? ', continued' : ''}
    </h2>
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
