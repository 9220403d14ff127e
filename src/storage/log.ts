import { newestVersion } from '../core/facts/known.ts'
import { sameFact } from '../core/facts/order.ts'
import type { Fact, FactDraft } from '../core/facts.ts'
import type { Nest } from '../core/nest.ts'
import type { Connection, Rows } from './connection.ts'
import { said } from './failure.ts'
import { isHead, type LogHead } from './schema.ts'

/** No log of a shop counts this far; a greater number is damage, and would leave no room to count on. */
const greatestLamport = 2 ** 50

/**
 * Who writes here. Made once; should the row be damaged, this becomes a new device rather than one that may give the
 * same id twice.
 */
export async function logHead(meta: Rows<'meta'>, makeId: () => string): Promise<LogHead> {
  const found = await meta.get('log')
  if (isHead(found)) return found
  const head = { device: makeId(), seq: 0, lamport: 0 }
  await meta.put(head, 'log')
  return head
}

export async function append(
  disk: Connection,
  drafts: readonly FactDraft[],
  nests: readonly Nest[],
  give: { readonly now: () => string; readonly makeId: () => string },
): Promise<readonly Fact[]> {
  return disk.write(['meta', 'facts', 'nests'], async (tx) => {
    const head = await logHead(tx.objectStore('meta'), give.makeId)
    const at = give.now()
    const facts = drafts.map((draft, index): Fact => {
      const seq = head.seq + 1 + index
      const { kind, body, job, copy, nest } = draft
      return {
        id: `${head.device}:${seq}`,
        v: newestVersion(kind),
        kind,
        device: head.device,
        seq,
        lamport: head.lamport + 1 + index,
        at,
        ...(job === undefined ? {} : { job }),
        ...(copy === undefined ? {} : { copy }),
        ...(nest === undefined ? {} : { nest }),
        body,
      }
    })
    const asked: Promise<unknown>[] = []
    // Asked all at once, since each answer that is waited for costs a way to the disk's process and back. One that
    // fails aborts the transaction, and `Promise.all` below says so.
    const ask = (request: Promise<unknown>) => {
      request.catch(() => undefined)
      asked.push(request)
    }
    // add, never put: a fact is not rewritten, come what may.
    for (const fact of facts) ask(tx.objectStore('facts').add(fact))
    const { device, seq, lamport } = head
    const count = facts.length
    ask(tx.objectStore('meta').put({ device, seq: seq + count, lamport: lamport + count }, 'log'))
    if (nests.length > 0) await addNests(tx.objectStore('nests'), nests)
    tx.commit()
    await Promise.all(asked)
    return facts
  })
}

/**
 * A union: what is here stays as it is. A fact of the same id that says something else (a copied device) is kept
 * aside and told as unread.
 */
export async function merge(
  disk: Connection,
  facts: readonly Fact[],
  nests: readonly Nest[],
  makeId: () => string,
): Promise<void> {
  const beyond = facts.find((fact) => fact.lamport > greatestLamport)
  if (beyond)
    throw said(
      `Fact ${beyond.id} counts to ${beyond.lamport}; a log counts to at most ${greatestLamport}. The file is damaged; nothing was taken from it.`,
    )
  await disk.write(['meta', 'facts', 'nests', 'strays'], async (tx) => {
    const head = await logHead(tx.objectStore('meta'), makeId)
    const store = tx.objectStore('facts')
    for (const fact of facts) {
      const here = await store.get(fact.id)
      if (!here) await store.add(fact)
      else if (!sameFact(here, fact))
        await tx.objectStore('strays').add({
          store: 'facts',
          key: fact.id,
          why: 'another fact of this name is here already; both are kept',
          row: fact,
        })
    }
    await addNests(tx.objectStore('nests'), nests)
    const own = facts.filter((fact) => fact.device === head.device)
    await tx.objectStore('meta').put(
      {
        device: head.device,
        seq: own.reduce((most, fact) => Math.max(most, fact.seq), head.seq),
        lamport: facts.reduce((most, fact) => Math.max(most, fact.lamport), head.lamport),
      },
      'log',
    )
  })
}

async function addNests(store: Rows<'nests'>, nests: readonly Nest[]): Promise<void> {
  // The id is the hash of the content: a nest that is here is this one.
  for (const nest of nests) if (!(await store.get(nest.id))) await store.add(nest)
}
