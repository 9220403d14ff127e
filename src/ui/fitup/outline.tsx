import type { Loop } from '../../core/fitup/loops.ts'

/** Try it on the outline: the tacked frame on the lines before the last joint is closed. Common practice. */
export function Outline({ loop }: { readonly loop: Loop }) {
  if (!loop.ring) return null
  return (
    <section className="fit-part" aria-labelledby="fit-outline">
      <h2 id="fit-outline">Try it on the outline</h2>
      <ol className="fit-steps">
        <li>Tack every joint but the last, outside corners only: such a tack still bends.</li>
        <li>Lay the frame on the scribed outline, or on the top that it will carry.</li>
        <li>Bend it until every corner lies on its line and the distances below are right.</li>
        <li>Close the last joint and tack it outside. Check again.</li>
        <li>Then tack inside, and last top and bottom.</li>
      </ol>
    </section>
  )
}
