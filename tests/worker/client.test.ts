import { describe, expect, test } from 'vitest'
import type { NestProblem, NestSection } from '../../src/core/nest.ts'
import { makeSolver, type WorkerLike } from '../../src/worker/client.ts'
import type { Answer, Solve } from '../../src/worker/protocol.ts'

const problem = { section: { kind: 'square-tube' } } as unknown as NestProblem
const nest = (cost: number) => ({ cost, bound: 1, proved: cost === 1 }) as unknown as NestSection

class Bench implements WorkerLike {
  asked: Solve[] = []
  ended = false
  onmessage: WorkerLike['onmessage'] = null
  onerror: WorkerLike['onerror'] = null
  postMessage(message: Solve) {
    this.asked.push(message)
  }
  terminate() {
    this.ended = true
  }
  say(data: Answer) {
    this.onmessage?.({ data })
  }
}

function bench() {
  const workers: Bench[] = []
  const timers: { what: () => void; ms: number; off: boolean }[] = []
  const solver = makeSolver({
    make: () => {
      const made = new Bench()
      workers.push(made)
      return made
    },
    later(what, ms) {
      const timer = { what, ms, off: false }
      timers.push(timer)
      return () => {
        timer.off = true
      }
    },
  })
  return { workers, timers, solver }
}

describe('the nest in the worker', () => {
  test('tells of better nests, then resolves with the last', async () => {
    const { workers, solver } = bench()
    const told: number[] = []
    const { done } = solver.solve(problem, ({ cost }) => told.push(cost))
    const { id } = workers[0]!.asked[0]!
    workers[0]!.say({ kind: 'better', id, nest: nest(3), cost: 3, bound: 1 })
    workers[0]!.say({ kind: 'better', id, nest: nest(2), cost: 2, bound: 1 })
    workers[0]!.say({ kind: 'end', id, why: 'proved', nest: nest(1) })
    expect((await done).cost).toBe(1)
    expect(told).toEqual([3, 2])
  })

  test('asks one thing at a time, in one worker', async () => {
    const { workers, solver } = bench()
    const first = solver.solve(problem, () => {})
    const second = solver.solve(problem, () => {})
    expect(workers[0]!.asked.map(({ id }) => id)).toEqual([1])
    workers[0]!.say({ kind: 'end', id: 1, why: 'budget', nest: nest(5) })
    expect(workers[0]!.asked.map(({ id }) => id)).toEqual([1, 2])
    workers[0]!.say({ kind: 'end', id: 2, why: 'budget', nest: nest(6) })
    expect([(await first.done).cost, (await second.done).cost]).toEqual([5, 6])
    expect(workers).toHaveLength(1)
  })

  test('stop ends the worker and gives the best so far; its late answers are dropped', async () => {
    const { workers, solver } = bench()
    const { done, stop } = solver.solve(problem, () => {})
    workers[0]!.say({ kind: 'better', id: 1, nest: nest(3), cost: 3, bound: 1 })
    stop()
    workers[0]!.say({ kind: 'end', id: 1, why: 'budget', nest: nest(2) })
    expect((await done).cost).toBe(3)
    expect(workers[0]!.ended).toBe(true)
    const next = solver.solve(problem, () => {})
    workers[0]!.say({ kind: 'end', id: 2, why: 'budget', nest: nest(9) })
    workers[1]!.say({ kind: 'end', id: 2, why: 'budget', nest: nest(4) })
    expect((await next.done).cost).toBe(4)
  })

  test('stopped before a nest was found, it rejects and says so; a waiting one never starts', async () => {
    const { workers, solver } = bench()
    const first = solver.solve(problem, () => {})
    const waiting = solver.solve(problem, () => {})
    waiting.stop()
    first.stop()
    await expect(first.done).rejects.toThrow(/before a nest was found/)
    await expect(waiting.done).rejects.toThrow(/before a nest was found/)
    expect(workers.flatMap(({ asked }) => asked.map(({ id }) => id))).toEqual([1])
  })

  test('a crashed worker rejects its request and is replaced for the next', async () => {
    const { workers, solver } = bench()
    const first = solver.solve(problem, () => {})
    const second = solver.solve(problem, () => {})
    workers[0]!.onerror?.({ message: 'out of memory' })
    await expect(first.done).rejects.toThrow(/out of memory/)
    expect(workers[0]!.ended).toBe(true)
    workers[1]!.say({ kind: 'end', id: 2, why: 'budget', nest: nest(7) })
    expect((await second.done).cost).toBe(7)
  })

  test('a problem that cannot be nested rejects with its words', async () => {
    const { workers, solver } = bench()
    const { done } = solver.solve(problem, () => {})
    workers[0]!.say({ kind: 'failed', id: 1, error: 'part A is longer than any stick' })
    await expect(done).rejects.toThrow('part A is longer than any stick')
  })

  test('after a minute with nothing to do the worker is ended; new work calls that off', async () => {
    const { workers, timers, solver } = bench()
    const first = solver.solve(problem, () => {})
    workers[0]!.say({ kind: 'end', id: 1, why: 'budget', nest: nest(1) })
    await first.done
    expect(timers.at(-1)).toMatchObject({ ms: 60_000, off: false })
    const second = solver.solve(problem, () => {})
    expect(timers.at(-1)?.off).toBe(true)
    workers[0]!.say({ kind: 'end', id: 2, why: 'budget', nest: nest(1) })
    await second.done
    timers.at(-1)?.what()
    expect(workers[0]!.ended).toBe(true)
  })
})
