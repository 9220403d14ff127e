import { rackMarks } from '../../core/facts/rack-mark.ts'
import type { Bodies, RackPiece } from '../../core/facts.ts'
import { sectionName } from '../../core/section/name.ts'
import { type Section, sectionKey } from '../../core/section/section.ts'
import type { Shop } from '../../core/shop.ts'
import { stepsNearest } from '../../core/units.ts'
import { TakeTable } from '../fields/take-table.tsx'
import { capital, saysOf } from '../words.ts'
import { AddToRack } from './add-to-rack.tsx'
import { RackGroup } from './rack-line.tsx'
import { rackOut } from './tables-out.ts'

interface RackProps {
  /** The last thing done on the rack, in words, which Undo takes back. */
  readonly undoes?: string | undefined
  readonly onUndo: () => void
  readonly rack: readonly RackPiece[]
  readonly shop: Shop
  /** Sections that can be added: of the job and of the shop. */
  readonly sections: readonly Section[]
  /** Ids of rack pieces that the nest cuts from, to the stick's name in it. */
  readonly used: ReadonlyMap<string, string>
  readonly onCorrect: (rack: string, length: number) => void
  readonly onDiscard: (rack: string) => void
  readonly onFound: (body: Bodies['found']) => void
  readonly onBought: (section: Section, length: number, count: number) => void
}

/** What lies on the rack: sticks and drops, added as found or bought, corrected, discarded. */
export function Rack(props: RackProps) {
  const { rack, shop } = props
  const says = saysOf(shop)
  const keys = [...new Set(rack.map((piece) => sectionKey(piece.section)))]
  const marks = rackMarks(rack)
  return (
    <section className="rack" aria-labelledby="rack-head">
      <h2 id="rack-head">On the rack</h2>
      {rack.length === 0 && (
        <p className="dim">
          Nothing yet. {capital(says.drops)} that are kept at the saw come here by themselves; put in what
          else lies there, and it is cut before anything is bought.
        </p>
      )}
      {keys.map((key) => {
        const own = rack.filter((piece) => sectionKey(piece.section) === key)
        return (
          <div key={key}>
            <h3>{sectionName(own[0]!.section, shop.reading)}</h3>
            <ul className="rack-list">
              {alike(own).map((pieces) => (
                <RackGroup key={pieces[0]!.id} {...props} marks={marks} pieces={pieces} />
              ))}
            </ul>
          </div>
        )
      })}
      {rack.length > 0 && (
        <p className="dim">
          Paint the mark on the end of each {says.drop}: the saw and the list call it by that.
        </p>
      )}
      {rack.length > 0 && <TakeTable name={shop.name} what="rack" table={() => rackOut(rack, shop)} />}
      {props.undoes && (
        <p className="rack-undo">
          <button type="button" onClick={props.onUndo}>
            Undo: {props.undoes}
          </button>
        </p>
      )}
      <AddToRack {...props} />
    </section>
  )
}

/** Pieces alike together, longest first: one length as it is read, one origin, one kind of ends. */
function alike(pieces: readonly RackPiece[]): readonly (readonly RackPiece[])[] {
  const groups = new Map<string, RackPiece[]>()
  for (const piece of [...pieces].sort((one, two) => two.length - one.length)) {
    const key = JSON.stringify([stepsNearest(piece.length), piece.from, piece.ends])
    groups.set(key, [...(groups.get(key) ?? []), piece])
  }
  return [...groups.values()]
}
