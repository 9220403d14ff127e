import { licenses } from './licenses.ts'

/** What this is, what it sends (nothing), and whose work it holds. */
export function About() {
  return (
    <section className="shop-part" aria-labelledby="about-head">
      <h2 id="about-head">About</h2>
      <p>
        Longpoint works on this device alone. Once installed it asks its own address for a newer version and
        for nothing else; no job, no name and no figure leaves the device unless you save, share or show it.
      </p>
      <p>
        Saws, grinders and arcs hurt people. The cautions here are the usual ones; the machine’s own manual,
        local codes and licensed people come first.
      </p>
      <details className="shop-item">
        <summary>Licenses of what it is built from</summary>
        <ul className="plain-list">
          {licenses.map(({ name, version, license }) => (
            <li key={name}>
              {name} {version}: {license}
            </li>
          ))}
        </ul>
        <p>
          <a className="button" href="./licenses.txt">
            Their full texts
          </a>
        </p>
      </details>
    </section>
  )
}
