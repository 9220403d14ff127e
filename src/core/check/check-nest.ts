import type { Nest, NestProblem, NestSection } from '../nest.ts'
import type { Verdict } from '../plan-shapes.ts'
import { sectionKey } from '../section/section.ts'
import { demandFaults, wantedFaults } from './nest-demand.ts'
import { layoutFaults } from './nest-layout.ts'
import { stockFaults } from './nest-stock.ts'
import { isLength, mm } from './words.ts'

/**
 * Judges a nest by the documents alone: every demanded piece once and only once, each stick's pieces with their kerfs,
 * clean-up cuts, grip and drop adding up to its length, stock and cost as offered. With `demand` (the plan's own
 * problems) the nest must also ask for exactly what the plan wants, with a blade, clean-up cut and grip no smaller.
 */
export function checkNest(nest: Nest, demand?: readonly NestProblem[]): Verdict {
  return {
    faults: [
      ...nameFaults(nest),
      ...nest.sections.flatMap((section) => {
        const faults = figureFaults(section)
        // Without sound figures nothing further can be reckoned.
        if (faults.length > 0) return faults
        return [
          ...claimFaults(section),
          ...demandFaults(section),
          ...layoutFaults(section),
          ...stockFaults(section),
        ]
      }),
      ...(demand ? wantedFaults(nest, demand) : []),
    ],
  }
}

/** Names that the facts and the people will use: each must mean one thing in the whole nest. */
function nameFaults(nest: Nest): string[] {
  const faults: string[] = []
  const seen = new Set<string>()
  const once = (name: string, words: string) => {
    if (seen.has(name)) faults.push(`${words} stands twice in the nest`)
    seen.add(name)
  }
  const jobs = new Set(nest.jobs)
  for (const { section, sticks } of nest.sections) {
    once(`section ${sectionKey(section)}`, `section ${sectionKey(section)}`)
    for (const stick of sticks) {
      once(`stick ${stick.id}`, `stick ${stick.id}`)
      for (const { piece, blank, job, makes } of stick.pieces) {
        if (!jobs.has(job)) faults.push(`piece ${piece} is of job ${job}, which the nest does not name`)
        for (const name of makes?.map((each) => each.piece) ?? [piece])
          once(`in ${job} ${name}`, `piece ${name} of job ${job}`)
        if (blank !== undefined) once(`in ${job} ${blank}`, `blank ${blank} of job ${job}`)
      }
    }
  }
  return faults
}

function figureFaults({ section, kerf, trim, grip, bound, cost, stock, sticks }: NestSection): string[] {
  const faults: string[] = []
  const name = `section ${sectionKey(section)}`
  if (!(section.width > 0 && section.height > 0 && isLength(section.width) && isLength(section.height)))
    faults.push(`${name}: width and height must be more than 0`)
  for (const [figure, value] of Object.entries({ kerf, trim, grip, cost, bound }))
    if (!isLength(value)) faults.push(`${name}: the ${figure} is ${value}; it must be a number from 0 on`)
  if (trim > 0 && trim < kerf)
    faults.push(`${name}: a clean-up cut of ${mm(trim)} is less than its own kerf of ${mm(kerf)}`)
  for (const { length } of [...stock, ...sticks])
    if (!(isLength(length) && length > 0)) faults.push(`${name}: a stick of length ${length}`)
  return faults
}

/** What is said of the cost; whether the bound holds is for the certificate. */
function claimFaults({ section, bound, cost, proved }: NestSection): string[] {
  const name = `section ${sectionKey(section)}`
  if (bound > cost) return [`${name}: the bound ${bound} is above the cost ${cost}`]
  if (proved && bound < cost)
    return [`${name}: called proved, but the bound ${bound} does not reach the cost ${cost}`]
  return []
}
