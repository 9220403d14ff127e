import type { Bodies, Fact, FactKind } from '../../../src/core/facts.ts'
import type { Section } from '../../../src/core/section/section.ts'

// A log written by hand: each tablet counts its own sequence and keeps its lamport above all it has seen.

export const tube: Section = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 }

export interface Tablet {
  /** Writes a fact after all those that this tablet has seen. */
  write<K extends FactKind>(kind: K, body: Bodies[K], of?: Partial<Fact>): Fact<K, Bodies[K]>
  /** Learns of what others wrote. */
  see(...facts: readonly Fact[]): void
  readonly log: Fact[]
}

export function tablet(device: string): Tablet {
  const log: Fact[] = []
  let lamport = 0
  let seq = 0
  return {
    log,
    see(...facts) {
      for (const fact of facts) lamport = Math.max(lamport, fact.lamport)
    },
    write(kind, body, of = {}) {
      seq += 1
      lamport += 1
      const at = new Date(Date.UTC(2030, 0, 1, 8, 0, lamport)).toISOString()
      const whole = { id: `${device}:${seq}`, v: 1, kind, device, seq, lamport, at, job: 'J1', body, ...of }
      // `of` may damage the body on purpose.
      const fact = whole as Fact<typeof kind, typeof body>
      log.push(fact)
      return fact
    },
  }
}

export const blank = (stick: string, mark = 'A'): Bodies['cut'] => ({
  stage: 'blank',
  key: `blank ${mark}`,
  mark,
  label: `${mark}1.b`,
  from: { stick },
})

export const piece = (parent: string, mark = 'A'): Bodies['cut'] => ({
  stage: 'piece',
  key: `piece ${mark}`,
  mark,
  label: `${mark}1`,
  from: { piece: parent },
})

/** The cut that went wrong, with so much of it left. */
export const spoilt = (cut: Bodies['cut'], left: number, took = 600): Bodies['miscut'] => ({
  ...cut,
  why: 'too short',
  section: tube,
  took,
  left,
  ends: ['cut', 'cut'],
})
