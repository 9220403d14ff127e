import { builds } from '../../core/builds/index.ts'
import { BuildPicture } from './build-picture.tsx'

/** A new job: what is to be built, chosen by its picture. */
export function NewJob({ onStart }: { readonly onStart: (kind: string) => void }) {
  return (
    <section className="new-job" aria-labelledby="new-head">
      <h2 id="new-head">New job</h2>
      <ul>
        {builds.map((build) => (
          <li key={build.kind}>
            <button type="button" onClick={() => onStart(build.kind)}>
              <BuildPicture build={build} size={72} />
              <span className="new-words">
                <span className="heard">New job: </span>
                <strong>{build.title}</strong>
                <span className="dim">{build.about}</span>
              </span>
            </button>
          </li>
        ))}
      </ul>
    </section>
  )
}
