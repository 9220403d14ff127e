import type { ParamSpec } from '../../../src/core/builds/build.ts'
import type { RowGiven } from '../../../src/core/job.ts'
import { badAll, good, type Result } from '../../../src/core/result.ts'
import { lookAtPasted } from '../../../src/ui/sizes/pasted.ts'

/** All rows of a pasted list, or all that is wrong with its lines. */
export function readPasted(
  text: string,
  columns: readonly ParamSpec[],
  units: 'in' | 'mm',
): Result<readonly RowGiven[]> {
  const looked = lookAtPasted(text, columns, units)
  if (!looked.ok) return looked
  const problems = looked.value.lines.flatMap((line) => line.problems)
  if (problems.length > 0) return badAll(problems.map((said) => ({ code: 'paste-cell', text: said })))
  return good(looked.value.lines.map(({ row }) => row!))
}
