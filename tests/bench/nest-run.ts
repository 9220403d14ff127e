// `node scripts/run.mjs tests/bench/nest-run.ts [CLASS] [times]`: solves the classes and prints shares and times.
import { checkNest } from '../../src/core/check/check-nest.ts'
import { solve } from '../../src/nest/solve.ts'
import { openWholeSolver } from '../../src/nest/whole-solver.ts'
import { classes, shopClasses } from '../nest/classes.ts'
import { dice } from '../prove/seed.ts'

const [which = '', most = '1000', verbose = ''] = process.argv.slice(2)
const seconds = () => {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1e6
}

let until = 0
const whole = (await openWholeSolver())(() => until - seconds())

for (const { name, times, make } of [...classes, ...shopClasses]) {
  if (!name.startsWith(which)) continue
  const all: number[] = []
  const firsts: number[] = []
  let proved = 0
  let under1 = 0
  let sticks = 0
  const open: string[] = []
  const runs = Math.min(times, Number(most))
  for (let time = 0; time < runs; time += 1) {
    const given = make(dice(`${name} ${time}`, 1))
    const start = seconds()
    until = start + 10
    let first: number | undefined
    const result = solve(given, {
      steps: 1e10,
      whole,
      stop: () => seconds() - start > 10,
      better: () => {
        first ??= seconds() - start
      },
    })
    const took = seconds() - start
    all.push(took)
    firsts.push(first ?? took)
    if (!result.ok) {
      open.push(`${time} refused`)
      continue
    }
    const { nest, provedSticks, unplaced } = result.value
    if (verbose)
      console.log(name, time, nest.proved, nest.sticks.length, nest.cost, nest.bound, took.toFixed(3))
    if (nest.proved) proved += 1
    else
      open.push(
        `${time}: ${nest.sticks.length} ${nest.cost}/${nest.bound}${unplaced.some((n) => n > 0) ? ' unplaced' : ''} ${took.toFixed(1)}s`,
      )
    if (nest.proved && took < 1) under1 += 1
    if (provedSticks) sticks += 1
    const faults = checkNest({ version: 1, id: 'x', solver: 'x', jobs: ['job-1'], sections: [nest] }, [
      given,
    ]).faults
    if (faults.length > 0 && !unplaced.some((n) => n > 0))
      console.log(`${name} ${time}: FAULTS ${faults.join(' ')}`)
  }
  const sorted = all.toSorted((a, b) => a - b)
  const at = (share: number) =>
    (1000 * sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!).toFixed(0)
  const slowFirst = Math.max(...firsts) * 1000
  console.log(
    `${name}: ${proved}/${runs} proved, ${under1} within 1 s, sticks ${sticks}; median ${at(0.5)} ms, p95 ${at(0.95)}, max ${at(1)}; slowest first answer ${slowFirst.toFixed(0)} ms${open.length ? `; open ${open.slice(0, 12).join(', ')}` : ''}`,
  )
}
