import type { Frame } from '../frame/frame.ts'
import { plateMass } from '../parts/plates.ts'
import type { Seam, WeldStep } from '../plan-shapes.ts'
import { scribedWords } from '../plates/scribed.ts'
import { say } from '../reading/show.ts'
import type { Reading } from '../shop.ts'
import { whyCheck, whyClean, whyPilot, whyScribe, whySheet, whyTapped } from './why.ts'

// What is done before the first tack and after the last seam, and the sheets that are only tacked on. Common practice.

/** Cleaning, and pilot holes of what is tapped; `first` is the sub-assembly that is begun with. */
export function stepsBefore(frame: Frame, seams: readonly Seam[], first: string): WeldStep[] {
  const stage = 'Before the first tack'
  const tapped = tappedOf(frame)
  const steps: WeldStep[] = []
  if (seams.length > 0)
    steps.push({
      id: 'fit:clean',
      kind: 'clean',
      assembly: first,
      stage,
      text: 'Clean scale, oil and paint off wherever a weld goes, about 1 in (25 mm) each way.',
      why: whyClean,
    })
  if (tapped.length > 0)
    steps.push({
      id: 'check:pilot',
      kind: 'drill',
      assembly: first,
      stage,
      text: `Drill the pilot holes in the ${sayTapped(tapped)}, before ${tapped.length === 1 ? 'it is' : 'they are'} welded on.`,
      why: whyPilot,
    })
  return steps
}

/** Plates that no joint holds, such as a sheet top: scribed where that is asked for, tacked, looked at. */
export function sheetSteps({ joints, plates }: Frame, reading: Reading): WeldStep[] {
  const joined = new Set(joints.flatMap(({ members }) => members))
  return plates
    .filter(({ id }) => !joined.has(id))
    .flatMap((plate): WeldStep[] => {
      const own = { assembly: plate.id, stage: plate.name }
      const name = plate.name.toLowerCase()
      const scribe = scribedWords(plate, (mm) => say(mm, reading))
      return [
        ...(scribe
          ? [{ id: `fit:${plate.id}`, kind: 'fit', ...own, text: scribe, why: whyScribe } as const]
          : []),
        {
          id: `tack:${plate.id}`,
          kind: 'tack',
          ...own,
          text: `Tack the ${name} at its corners only.`,
          why: whySheet,
          kg: plateMass(plate),
        },
        {
          id: `check:${plate.id}`,
          kind: 'check',
          ...own,
          text: `Check that the ${name} lies flat.`,
          why: whyCheck,
        },
      ]
    })
}

/** Threads. */
export function stepsAfter(frame: Frame): WeldStep[] {
  const tapped = tappedOf(frame)
  if (tapped.length === 0) return []
  return [
    {
      id: 'check:tapped',
      kind: 'drill',
      assembly: 'all',
      stage: 'When all is welded',
      text: `Drill and tap ${tapped[0]!.thread} in the ${sayTapped(tapped)}, after welding.`,
      why: whyTapped,
    },
  ]
}

const tappedOf = ({ plates }: Frame): Frame['plates'] => plates.filter((plate) => plate.thread)

/** `4 foot caps`, `base plate`. */
const sayTapped = (plates: Frame['plates']): string =>
  plates.length === 1 && !plates[0]!.name.includes('cap')
    ? plates[0]!.name.toLowerCase()
    : `${plates.length} foot caps`
