import type { Blade, Saw, Shop } from '../../core/shop.ts'
import { useActions, useApp } from '../app.ts'
import { hrefOf } from '../shell/route.ts'
import { sayFine } from '../words.ts'

const kerfWords = ({ kerf }: { readonly kerf: number }, { reading }: Shop): string =>
  `kerf ${sayFine(kerf, reading)}`

/** Another blade of this saw is put on while the job is being cut. */
export function OtherBlade({ job, saw, shop }: { job: string; saw: Saw; shop: Shop }) {
  const actions = useActions()
  const changed = useApp((state) => state.progress.blades[saw.id])
  const on = changed?.blade ?? saw.blade
  const known: Blade | undefined = saw.blades.find(({ id }) => id === on)
  const others = saw.blades.filter(({ id }) => id !== on)
  return (
    <details className="real-stick other-blade">
      <summary>Another blade on {saw.name}?</summary>
      {known && (
        <p>
          On now: <b>{known.name}</b>, {kerfWords(changed ?? known, shop)}.
        </p>
      )}
      {others.length === 0 ? (
        <>
          <p>{saw.name} has no other blade in the shop yet. It is added there, with its kerf.</p>
          <a className="button" href={hrefOf({ station: 'shop' })}>
            Add it in Shop
          </a>
        </>
      ) : (
        <>
          <p>
            Cut the power and change the blade as the saw’s manual says. Then set the zero of the stop anew:
            the teeth stand elsewhere. What is still to be cut is planned anew with the new kerf.
          </p>
          {others.map((blade) => (
            <button
              key={blade.id}
              type="button"
              onClick={() => void actions.changeBlade(job, saw.id, blade.id)}
            >
              {blade.name} is on now, {kerfWords(blade, shop)}
            </button>
          ))}
        </>
      )}
    </details>
  )
}

/** Which saws have another blade on than the shop says, and what that asks for before the next cut. */
export function BladesChanged({ shop }: { shop: Shop }) {
  const blades = useApp((state) => state.progress.blades)
  return shop.saws.flatMap((saw) => {
    const on = blades[saw.id]
    if (!on || on.blade === saw.blade) return []
    const name = saw.blades.find(({ id }) => id === on.blade)?.name ?? 'Another blade'
    return (
      <p key={saw.id} className="caution short">
        {name} is on {saw.name}, {kerfWords(on, shop)}. Is the zero of the stop set for it? Make a trial cut
        and measure it.
      </p>
    )
  })
}
