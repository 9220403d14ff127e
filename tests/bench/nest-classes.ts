import { solveOne } from '../../src/cli/nest-command.ts'
import { checkNest } from '../../src/core/check/check-nest.ts'
import type { NestProblem } from '../../src/core/nest.ts'
import { openWholeSolver } from '../../src/nest/whole-solver.ts'
import type { ProblemClass } from '../nest/classes.ts'
import { dice } from '../prove/seed.ts'

/** Seconds of one core, whatever else the machine is doing. */
export const cpuSeconds = (): number => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1e6
}

export const secondsEach = 10

/** As the command line does it: ten seconds, the solver only loaded where a question is left. */
export async function timed(problem: NestProblem) {
  const start = cpuSeconds()
  const solved = await solveOne({ problem }, () => secondsEach - (cpuSeconds() - start), {
    load: openWholeSolver,
  })
  return { solved, took: cpuSeconds() - start }
}

export interface ClassFigures {
  readonly name: string
  readonly runs: number
  readonly proved: number
  readonly within1: number
  readonly sticksProved: number
  /** Milliseconds. */
  readonly median: number
  readonly p95: number
  readonly most: number
}

/** Solves `most` problems of a class at most, each by its own seed; every nest goes past the judge. */
export async function classFigures({ name, times, make }: ProblemClass, most: number): Promise<ClassFigures> {
  const all: number[] = []
  let [proved, within1, sticksProved] = [0, 0, 0]
  const runs = Math.min(times, most)
  for (let time = 0; time < runs; time += 1) {
    const given = make(dice(`${name} ${time}`, 1))
    const { solved, took } = await timed(given)
    if (!solved.ok) throw new Error(`${name} ${time}: ${solved.problems[0]?.text}`)
    const { nest, provedSticks, unplaced } = solved.value
    const whole = { version: 1 as const, id: 'x', solver: 'x', jobs: ['job-1'], sections: [nest] }
    const { faults } = checkNest(whole, [given])
    if (faults.length > 0 && unplaced.every((count) => count === 0))
      throw new Error(`${name} ${time}: ${faults[0]}`)
    all.push(1000 * took)
    if (nest.proved) proved += 1
    if (nest.proved && took < 1) within1 += 1
    if (provedSticks) sticksProved += 1
  }
  all.sort((a, b) => a - b)
  const at = (share: number) => Math.round(all[Math.min(all.length - 1, Math.floor(share * all.length))]!)
  return { name, runs, proved, within1, sticksProved, median: at(0.5), p95: at(0.95), most: at(1) }
}
