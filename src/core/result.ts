/** What is wrong, in words for the person: what was given and what is possible. */
export interface Problem {
  /** Stable name of the kind of problem, for tests and for other programs. */
  readonly code: string
  readonly text: string
  /** The same in two parts, where the text says what else can be done. */
  readonly out?: { readonly why: string; readonly ways: readonly string[] }
  /** Path of the field that it belongs to, as in the job file: `build.params.size`. */
  readonly field?: string
}

export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] }

export const good = <T>(value: T): Result<T> => ({ ok: true, value })

export const bad = (code: string, text: string, field?: string): Result<never> => ({
  ok: false,
  problems: [field === undefined ? { code, text } : { code, text, field }],
})

export const badAll = (problems: readonly Problem[]): Result<never> => ({ ok: false, problems })
