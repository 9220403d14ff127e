import type { AngleShown, Shown } from '../../core/plan-shapes.ts'
import { fractionOf } from '../../core/reading/show.ts'

/** Digits with the fraction typeset: whole number, numerator over denominator. `text` is that of a `Shown`. */
export function Digits({ text }: { text: string }) {
  const { whole, numerator, denominator } = fractionOf(text)
  if (!numerator || !denominator) return <>{text}</>
  return (
    <>
      <span className="heard">{text}</span>
      <span className="digits" aria-hidden="true">
        {whole}
        <span className="fraction">
          <span>{numerator}</span>
          <span>{denominator}</span>
        </span>
      </span>
    </>
  )
}

/** A length as a person reads it, its unit always with it; `lies` adds strong or scant. Size follows the font. */
export function LengthText({ of, lies = false }: { of: Shown; lies?: boolean }) {
  return (
    <span className="length">
      <Digits text={of.text} />
      <span className="unit"> {of.unit}</span>
      {lies && of.lies && <span className="lies"> {of.lies}</span>}
    </span>
  )
}

/** An angle, with its rise where no saw scale shows it. */
export function AngleText({ of, rise = false }: { of: AngleShown; rise?: boolean }) {
  return (
    <span className="angle">
      <span className="length">{of.text}</span>
      {rise && of.rise && <span className="rise"> {of.rise}</span>}
    </span>
  )
}
