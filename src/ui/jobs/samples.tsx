import { useActions } from '../app.ts'
import { go } from '../shell/route.ts'

/** Jobs of an invented shop, to look at and to try things on. */
export function Samples({
  samples,
  first = false,
}: {
  readonly samples: readonly string[]
  readonly first?: boolean
}) {
  const { openSample } = useActions()
  const open = async (index: number) => go({ station: 'sizes', job: await openSample(index) })
  return (
    <section className="samples" aria-labelledby="samples-head">
      <h2 id="samples-head">Sample jobs</h2>
      {first && (
        <p className="dim">To look round before there is a job of one’s own. The shop in them is invented.</p>
      )}
      <ul>
        {samples.map((name, index) => (
          <li key={name}>
            <button type="button" onClick={() => void open(index)}>
              {name}
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
