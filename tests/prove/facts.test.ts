import { expect, test } from 'vitest'
import { fold } from '../../src/core/facts/fold.ts'
import { union } from '../../src/core/facts/order.ts'
import type { Fact } from '../../src/core/facts.ts'
import { randomLog, shuffled } from '../core/facts/random-log.ts'
import { dice, seed } from './seed.ts'

/** What the words of the design say, with no cleverness: a fact counts iff no counting undo names it. */
function plainCounting(facts: readonly Fact[]): ReadonlySet<string> {
  const undos = facts.filter((fact) => fact.kind === 'undo' && fact.v === 1)
  const counts = (id: string): boolean =>
    !undos.some((undo) => (undo.body as { fact: string }).fact === id && counts(undo.id))
  return new Set(facts.filter((fact) => counts(fact.id)).map(({ id }) => id))
}

type Of = { readonly stage: string; readonly key: string; readonly from: { readonly piece?: string } }

/** A piece is spoiled when the last word on it calls it, as what it was, a miscut; last is greatest (lamport, device). */
function isSpoiled(cut: Fact, counting: readonly Fact[]): boolean {
  const { stage, key } = cut.body as Of
  const words = counting.filter(({ kind, body }) => kind === 'miscut' && (body as Of).from.piece === cut.id)
  const [last] = words.sort((a, b) => b.lamport - a.lamport || (a.device < b.device ? 1 : -1))
  return last !== undefined && (last.body as Of).stage === stage && (last.body as Of).key === key
}

const rounds = 1500

test(`${rounds} random logs of three tablets fold to one progress in any order, doubled, in pieces (seed ${seed})`, () => {
  const roll = dice('facts')
  let facts = 0
  for (let round = 0; round < rounds; round++) {
    const log = randomLog(roll, roll.whole(1, 150))
    facts += log.length
    const once = fold(log)
    const say = `seed ${seed}, round ${round}`
    const parts = [0, 1, 2].map(() => log.filter(() => roll() < 0.6))
    expect(fold(shuffled(roll, [...log, ...log])), say).toEqual(once)
    expect(fold(union(...shuffled(roll, [...parts, log]))), say).toEqual(once)

    // Random logs hold no rings: an undo names what was there before it, or nothing here.
    const counts = plainCounting(log)
    const counting = log.filter((fact) => fact.v === 1 && counts.has(fact.id))
    const spoiled = (cut: Fact) => isSpoiled(cut, counting)
    const cuts = counting.filter((fact) => fact.kind === 'cut' && !spoiled(fact))
    expect(new Set(once.made.map(({ id }) => id)), say).toEqual(new Set(cuts.map(({ id }) => id)))
  }
  process.stdout.write(`facts: ${rounds} logs, ${facts} facts, seed ${seed}\n`)
})
