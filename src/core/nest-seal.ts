import type { Nest, NestSection } from './nest.ts'

// A nest that is stored never changes: its id is the hash of all the rest.

/** Text of plain data in which the order of keys plays no part and absent fields do not show. */
export function canonical(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonical).join()}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value) ?? 'null'
  const fields = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, field]) => `${JSON.stringify(key)}:${canonical(field)}`)
  return `{${fields.join()}}`
}

const contentOf = ({ id: _id, ...rest }: Nest): string => canonical(rest)

/**
 * Makes a nest of solved sections: sticks are named S1, S2 … through all sections (unless they are named already), and the id is the hash of the rest.
 * `hash` gives the SHA-256 of a text in hex; `parent` is the nest that this one replaces.
 */
export async function sealNest(
  input: {
    readonly sections: readonly NestSection[]
    readonly jobs: readonly string[]
    readonly solver: string
    readonly parent?: string
    /** The sticks bear their names already, each once. */
    readonly named?: true
  },
  hash: (text: string) => Promise<string>,
): Promise<Nest> {
  const { sections, jobs, solver, parent, named } = input
  let number = 0
  const renamed = sections.map(
    (section): NestSection => ({
      ...section,
      sticks: section.sticks.map((stick) => {
        number += 1
        return named ? stick : { ...stick, id: `S${number}` }
      }),
    }),
  )
  const content = {
    version: 1 as const,
    solver,
    ...(parent !== undefined && { parent }),
    jobs,
    sections: renamed,
  }
  return { ...content, id: await hash(canonical(content)) }
}

/** Whether a nest is what its id says: false for one that was changed after it was sealed. */
export const isSealed = async (nest: Nest, hash: (text: string) => Promise<string>): Promise<boolean> =>
  (await hash(contentOf(nest))) === nest.id
