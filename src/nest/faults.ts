import type { NestProblem, Slope } from '../core/nest.ts'
import type { Problem } from '../core/result.ts'
import { isSquare } from '../core/stick-room.ts'

// What no search can work with. Said before anything is solved, with what was given and what is possible.

/** Above this many pieces the sums of a nest leave the numbers that are exact. */
export const mostPieces = 20_000

const fault = (text: string, field: string): Problem => ({ code: 'nest-problem', text, field })

const isLength = (value: number) => Number.isFinite(value) && value >= 0

/** Every fault of a nest problem, in words; an empty list when it can be solved. */
export function faultsOf(problem: NestProblem): Problem[] {
  const faults: Problem[] = []
  const { kerf, trim, grip, parts, stock, section } = problem
  for (const [name, value] of Object.entries({ kerf, trim, grip }))
    if (!isLength(value)) faults.push(fault(`The ${name} is ${value}; it must be 0 mm or more.`, name))
  if (trim > 0 && trim < kerf)
    faults.push(
      fault(
        `The clean-up cut is ${trim} mm, less than the kerf of ${kerf} mm that is part of it; it must be 0, or ${kerf} mm or more.`,
        'trim',
      ),
    )
  if (parts.length === 0) faults.push(fault('There is no part to cut.', 'parts'))
  if (stock.length === 0) faults.push(fault('There is no stock to cut from.', 'stock'))
  for (const [at, { mark, mid, count, ends }] of parts.entries()) {
    const field = `parts[${at}]`
    if (!Number.isSafeInteger(count) || count < 1)
      faults.push(fault(`Part ${mark} is wanted ${count} times; it must be a whole number from 1 on.`, field))
    if (!ends.every(({ p, q }) => Number.isFinite(p) && Number.isFinite(q)))
      faults.push(fault(`Part ${mark} has an end that cannot be cut; its slopes must be numbers.`, field))
    else if (Number.isFinite(mid) && !(shortest(mid, ends, section.width, section.height) > 0))
      faults.push(
        fault(
          ends.every(isSquare)
            ? `Part ${mark} has a length of ${mid} mm; it must be more than 0 mm.`
            : `The slanted ends of part ${mark} leave no steel on its short side; it must be longer, or its ends less slanted.`,
          field,
        ),
      )
    else if (!Number.isFinite(mid))
      faults.push(fault(`Part ${mark} has a length of ${mid} mm; it must be a plain number.`, field))
  }
  for (const [at, { length, price, count }] of stock.entries()) {
    const field = `stock[${at}]`
    if (!(Number.isFinite(length) && length > 0))
      faults.push(fault(`A stick is ${length} mm long; it must be more than 0 mm.`, field))
    if (count !== undefined && !(Number.isSafeInteger(count) && count >= 0))
      faults.push(fault(`A stick is there ${count} times; it must be a whole number from 0 on.`, field))
    if (price !== undefined && !(Number.isFinite(price) && price >= 0))
      faults.push(fault(`A stick costs ${price}; it must be 0 or more.`, field))
  }
  const bought = stock.filter(({ rack }) => rack === undefined)
  const priced = bought.filter(({ price }) => price !== undefined)
  if (priced.length > 0 && priced.length < bought.length)
    faults.push(
      fault(
        `Only ${priced.length} of ${bought.length} stock lengths have a price; give all of them one, or none.`,
        'stock',
      ),
    )
  if (
    (priced.length > 0 || bought.length === 0) &&
    stock.some(({ price }) => price !== undefined && !Number.isSafeInteger(price))
  )
    faults.push(fault('Prices must be whole cents.', 'stock'))
  const pieces = parts.reduce((sum, { count }) => sum + count, 0)
  if (pieces > mostPieces)
    faults.push(
      fault(`There are ${pieces} pieces to cut; at most ${mostPieces} can be nested at once.`, 'parts'),
    )
  return faults
}

/** Length of the shortest edge of the sharp outer box. */
function shortest(
  mid: number,
  [lead, trail]: readonly [Slope, Slope],
  width: number,
  height: number,
): number {
  return mid - Math.abs(lead.p - trail.p) * (width / 2) - Math.abs(lead.q - trail.q) * (height / 2)
}
