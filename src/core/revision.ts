/**
 * A saved state of a document (a job, the shop). `rev` is unique per document on one device and greater than that of
 * the revision replaced; two children of one parent are rivals, and the person chooses.
 */
export interface Revision<T> {
  readonly id: string
  readonly rev: number
  /** `device:rev` of the revision that this one replaces; null for the first. */
  readonly parent: string | null
  readonly device: string
  readonly body: T
}

/** What a child names as its parent. */
export const revisionName = (revision: { readonly device: string; readonly rev: number }): string =>
  `${revision.device}:${revision.rev}`
