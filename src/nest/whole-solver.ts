import type { WholeSolver } from './whole.ts'

/** Nodes of its tree: counted like steps, so that the same program gives the same answer. */
const mostNodes = 20_000

/** Of the time left, for one program: a large one that comes to nothing must leave the search time to go on. */
export const timeShare = 0.25

/**
 * Loads the library for whole numbers, which is large. `address` is where its program lies; absent: beside the library.
 * What comes makes a solver for one search, which asks how many seconds are left before each program.
 */
export async function openWholeSolver(address?: string): Promise<(secondsLeft: () => number) => WholeSolver> {
  const { default: load } = await import('highs')
  const highs = await load(address === undefined ? {} : { locateFile: () => address })
  return (secondsLeft) => (program) => {
    const answer = highs.solve(program, {
      time_limit: Math.max(0.1, timeShare * secondsLeft()),
      mip_max_nodes: mostNodes,
      output_flag: false,
    })
    const amounts: Record<string, number> = {}
    for (const [name, column] of Object.entries(answer.Columns))
      if ('Primal' in column && typeof column.Primal === 'number' && column.Primal > 0.5)
        amounts[name] = column.Primal
    // Whatever the status says: the caller counts the pieces again.
    return Object.keys(amounts).length > 0 ? amounts : undefined
  }
}
