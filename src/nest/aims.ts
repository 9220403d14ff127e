import { wholeSlack } from '../core/tolerance.ts'
import { type Box, type Counts, keeps } from './counts.ts'
import type { Ledger, Question } from './ledger.ts'
import { dearest } from './model.ts'
import { type Relaxation, type Relaxed, type WorthTelling, wholeBox } from './relax.ts'
import type { Work } from './work.ts'

/** Counts of sticks that could hold all pieces, as far as the relaxed problem says. */
export interface Aim extends Counts {
  /** No more sticks of each kind than that. */
  readonly box: Box
  readonly relaxed: Relaxed
  /** Tries to fill them, so far in vain. */
  tries: number
}

export interface Aims {
  readonly known: ReadonlyMap<string, Aim>
  /** The aim of these counts; undefined where they are ruled out by a new cut, or when the work is over. */
  at(counts: Counts, work: Work): Aim | undefined
}

export const nameOf = ({ sticks }: Counts): string => sticks.join()

/** Share of the dearest stick that counts must lack to be ruled out: less of it would be no proof in whole numbers. */
const clearly = 1e-4

/**
 * Looks at counts of sticks with fractions of patterns allowed. `root` is the answer without counts, if there is one:
 * where one kind is paid for, its cost says all that counts could.
 */
export function openAims(
  { model, pricing }: Question,
  relaxation: Relaxation,
  root: Relaxed | undefined,
  ledger: Ledger,
): Aims {
  const known = new Map<string, Aim>()
  const whole = wholeBox(model)
  const scale = dearest(pricing)
  const paid = [...model.kinds.keys()].filter((kind) => pricing[kind]! > 0)
  const pivot = paid.reduce((a, b) => (a >= 0 && model.kinds[a]!.count >= model.kinds[b]!.count ? a : b), -1)

  function relaxedAt({ cost, sticks }: Counts, work: Work): Relaxed | undefined {
    if (root && paid.length < 2) return root
    // All counts but one as they are to be: how many of that one are needed says whether they can hold the pieces.
    relaxation.move({
      least: sticks.map((count, kind) => (kind === pivot || pricing[kind] === 0 ? 0 : count)),
      most: sticks.map((count, kind) => (kind === pivot ? whole.most[kind]! : count)),
    })
    const tooMuch = cost + clearly * scale
    const telling: WorthTelling = (bound, most) => bound <= tooMuch && most > cost + wholeSlack
    const relaxed = relaxation.solve(work, telling)
    if (!relaxed) return undefined
    if (relaxed.missing <= wholeSlack && relaxed.cost * scale <= tooMuch) return relaxed
    // A cut that does not rule them out has lost too much to rounding: they stay an aim.
    const cut = ledger.note(relaxed, work)
    return cut && keeps(cut, sticks) ? relaxed : undefined
  }

  return {
    known,
    at(counts, work) {
      const name = nameOf(counts)
      const there = known.get(name)
      if (there) return there
      const relaxed = relaxedAt(counts, work)
      if (!relaxed) return undefined
      // With one kind the cost limits the count already.
      const box = model.kinds.length === 1 ? whole : { least: whole.least, most: counts.sticks }
      const aim: Aim = { ...counts, box, relaxed, tries: 0 }
      known.set(name, aim)
      return aim
    },
  }
}
