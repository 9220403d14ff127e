import type { KnownFact, Progress, SheetDrop } from '../facts.ts'
import { ofKind, single } from './rack.ts'

/** Rests of sheet that lie there: found, by their last measure, less those that were discarded. */
export function foldSheets(facts: readonly KnownFact[]): {
  readonly lying: readonly SheetDrop[]
  readonly losers: Progress['losers']
} {
  const corrected = single(ofKind(facts, 'sheetCorrected'), ({ body }) => body.sheet)
  const gone = new Set(ofKind(facts, 'sheetDiscarded').map(({ body }) => body.sheet))
  const lying = ofKind(facts, 'sheetFound')
    .filter(({ id }) => !gone.has(id))
    .map(({ id, body }): SheetDrop => {
      const { length, width } = corrected.winners.get(id)?.body ?? body
      return {
        id,
        thickness: body.thickness,
        length: Math.max(length, width),
        width: Math.min(length, width),
      }
    })
  return { lying, losers: corrected.losers }
}
