import type { Frame, Joint } from '../frame/frame.ts'

const plain = (part: string): string => part.replaceAll('-', ' ')

/**
 * What each joint is called, by its id: corners, elbows and caps as the frame numbers them (`corner 3`), others by the
 * pieces that meet (`cross bar to side rail 1`). What several would be called alike is told apart by the parts of their
 * ids that differ: `front rail to upright, tier 2, front 1`.
 */
export function jointNames({
  joints,
  members,
  plates,
}: Pick<Frame, 'joints' | 'members' | 'plates'>): ReadonlyMap<string, string> {
  const names = new Map([...members, ...plates].map(({ id, name }) => [id, name.toLowerCase()]))
  const alike = new Map<string, Joint[]>()
  for (const joint of joints) {
    const pieces = joint.members.flatMap((id) => names.get(id) ?? [])
    const name =
      joint.kind === 'miter' || joint.kind === 'cap' || pieces.length < 2
        ? plain(joint.id.slice(joint.id.indexOf('/') + 1)).replaceAll('/', ' to ')
        : pieces.join(' to ')
    alike.set(name, [...(alike.get(name) ?? []), joint])
  }
  const found = new Map<string, string>()
  for (const [name, own] of alike) {
    const tell = own.length > 1 ? differing(own.map(({ id }) => id.split('/'))) : []
    for (const { id } of own) {
      const path = id.split('/')
      found.set(id, [name, ...tell.map((at) => plain(path[at] ?? ''))].join(', '))
    }
  }
  return found
}

/** As few places of these paths as tell all of them apart. */
function differing(paths: readonly (readonly string[])[]): readonly number[] {
  const told = (places: readonly number[]) =>
    new Set(paths.map((path) => places.map((at) => path[at] ?? '').join('/'))).size
  const all = Array.from({ length: Math.max(...paths.map(({ length }) => length)) }, (_, at) => at)
  // What stands in the middle repeats most often what stands about it.
  const inTurn = [...all.slice(1, -1), all[0]!, all.at(-1)!]
  return inTurn.reduce<readonly number[]>((kept, at) => {
    const fewer = kept.filter((one) => one !== at)
    return told(fewer) === told(all) ? fewer : kept
  }, all)
}
