import { counting } from '../core/facts/counting.ts'
import { known } from '../core/facts/known.ts'
import type { Fact } from '../core/facts.ts'
import type { Job } from '../core/job.ts'
import type { Nest } from '../core/nest.ts'
import { canonical, isSealed } from '../core/nest-seal.ts'
import { bad, good, type Problem, type Result } from '../core/result.ts'
import type { Shop } from '../core/shop.ts'
import { type BackupFile, readBackupFile } from '../door/backup-file.ts'
import { readCodes, readLink, withCode, writeCodes, writeLink } from '../door/carried.ts'
import { isBackup, type JobFile, readJobFile, writeJobFile } from '../door/job-file.ts'
import { attempt, type Desk, jobOf } from './desk.ts'
import { freeName, saveJob } from './jobs.ts'
import { readDisk } from './publish.ts'
import type { Actions, Carried, Looked, Opened } from './state.ts'

export function fileActions(
  desk: Desk,
): Pick<
  Actions,
  | 'openFile'
  | 'openSample'
  | 'fileOf'
  | 'openBackup'
  | 'linkOf'
  | 'codesOf'
  | 'lookAtLink'
  | 'withCode'
  | 'lookAtCodes'
  | 'lookAtGiven'
  | 'sharedFiles'
  | 'forgetShared'
> {
  async function open(text: string, differing: Differing): Promise<Awaited<ReturnType<Actions['openFile']>>> {
    const read = await sound(desk, readJobFile(text))
    if (!read.ok) return { problems: read.problems }
    const taken = await attempt(desk, undefined, () => take(desk, asBackup(read.value), differing, 'leave'))
    if (!taken) return { problems: [notOpened(desk)] }
    return { job: taken.jobs[0]!, ...(taken.rivals.length > 0 && { rival: true }), problems: [] }
  }
  return {
    openFile: (text) => open(text, 'keep both'),
    openSample: async (index) => {
      const sample = desk.ports.samples[index]
      const { job, problems } = sample
        ? await open(sample.text, 'copy')
        : { job: undefined, problems: [{ code: 'no-sample', text: `There is no sample job ${index + 1}.` }] }
      if (job !== undefined) return job
      desk.store.setState({ trouble: problems.map((problem: Problem) => problem.text).join(' ') })
      return ''
    },
    fileOf: (id) => writeJobFile(fileOf(desk, id)),
    linkOf: (id, whole) => writeLink(carriedOf(desk, id, whole)),
    codesOf: (id, whole) => writeCodes(carriedOf(desk, id, whole)),
    lookAtLink: async (link) => lookAt(desk, await readLink(link)),
    withCode,
    lookAtCodes: async (codes) => lookAt(desk, await readCodes(codes)),
    lookAtGiven: (text) => lookAtGiven(desk, text),
    sharedFiles: async () => desk.ports.shared?.files() ?? [],
    forgetShared: async () => desk.ports.shared?.forget(),
    openBackup: async (text) => {
      const read = await sound(desk, readBackupFile(text))
      if (!read.ok) return { ...nothing, problems: read.problems }
      // A job file carries the shop it was planned in, which need not be ours; a backup is of this shop.
      const shops = readJobFile(text).ok ? 'leave' : 'keep both'
      const taken = await attempt(desk, undefined, () => take(desk, read.value, 'keep both', shops))
      if (!taken) return { ...nothing, problems: [notOpened(desk)] }
      return { ...taken, left: read.value.left ?? [], problems: [] }
    },
  }
}

const carriedOf = (desk: Desk, id: string, whole: boolean): JobFile => {
  const file = fileOf(desk, id)
  return whole ? file : { job: file.job }
}

async function lookAt(desk: Desk, carried: Result<string>): Promise<Result<Carried>> {
  if (!carried.ok) return carried
  const text = carried.value
  const read = await sound(desk, readJobFile(text))
  if (!read.ok) return read
  const { job, facts = [], shop } = read.value
  return good({ text, job, facts: facts.length, shop: shop?.name ?? null })
}

/** A link may stand among other words, as messages put it there. */
const linkIn = (text: string): string | undefined =>
  text.trimStart().startsWith('{') ? undefined : /#\/open\/(\S+)/.exec(text.slice(0, 200_000))?.[1]

async function lookAtGiven(desk: Desk, text: string): Promise<Result<Looked>> {
  const link = linkIn(text)
  const job = await lookAt(desk, link === undefined ? good(text) : await readLink(link))
  if (job.ok) return good({ job: job.value })
  if (job.problems[0]?.code !== isBackup) return job
  const read = await sound(desk, readBackupFile(text))
  if (!read.ok) return read
  const { jobs, facts, shop = read.value.otherShops?.[0], left = [] } = read.value
  return good({
    all: { text, jobs: jobs.length, facts: facts.length, shop: shop?.name ?? null, left: left.length },
  })
}

const nothing = { jobs: [], ownShop: false, rivals: [], left: [] } as const

const notOpened = (desk: Desk): Problem => ({
  code: 'not-opened',
  text: desk.store.getState().trouble ?? 'The file was not opened.',
})

const asBackup = ({ job, shop, nests = [], facts = [] }: JobFile): BackupFile => ({
  ...(shop && { shop }),
  jobs: [job],
  nests,
  facts,
})

/** What came through the door, and then each nest against its name: the id of a nest is the hash of all the rest. */
async function sound<F extends JobFile | BackupFile>(desk: Desk, read: Result<F>): Promise<Result<F>> {
  if (!read.ok) return read
  for (const nest of read.value.nests ?? []) {
    if (!(await isSealed(nest, desk.ports.hash)))
      return bad(
        'nest-changed',
        `The nest ${nest.id.slice(0, 8)} in this file was changed after it was named; nothing was taken from the file.`,
        'nests',
      )
  }
  return read
}

/** What becomes of a document that is here already and differs: a second version to choose from, or a job of its own. */
type Differing = 'keep both' | 'copy'

type Taken = Pick<Opened, 'jobs' | 'ownShop' | 'rivals'>

/**
 * Facts and nests first (a union, they replace nothing), then the shop, the jobs last. Of a document that is here and
 * differs nothing is lost: it stays, and the other is kept beside it as a second version until the person chooses.
 */
async function take(
  desk: Desk,
  { jobs, shop, otherShops = [], nests, facts }: BackupFile,
  differing: Differing,
  shops: 'keep both' | 'leave',
): Promise<Taken> {
  const { disk, ids } = desk.ports
  const rivals: string[] = []
  if (facts.length > 0 || nests.length > 0) await disk.merge(facts, nests)
  const given = [...(shop ? [shop] : []), ...otherShops]
  const own = desk.shop?.body ?? given[0]
  if (own && desk.shop === null) await disk.saveShop(own, null)
  const others = given.filter((one) => own && !same(own, one))
  const ownShop = desk.shop !== null && others.length > 0
  if (shops === 'keep both')
    for (const one of others) {
      rivals.push(one.name)
      if (!isKnownRival(desk, one)) await disk.saveShop(one, null)
    }
  await readDisk(desk)
  const opened: string[] = []
  for (const job of jobs) {
    const here = desk.jobs.get(job.id)
    if (here && same(here.body, job)) {
      opened.push(job.id)
    } else if (here && differing === 'keep both') {
      opened.push(job.id)
      rivals.push(here.body.name)
      if (!isKnownRival(desk, job)) await disk.saveJob(job, null)
    } else {
      const name = freeName(job.name, desk.store.getState().jobs)
      const taken = here ? { ...job, id: ids.make(), name } : job
      await saveJob(desk, taken, undefined)
      opened.push(taken.id)
    }
  }
  if (rivals.length > 0) await readDisk(desk)
  return { jobs: [...new Set(opened)], ownShop, rivals: [...new Set(rivals)] }
}

/** Opening the same file twice makes no third version. */
const isKnownRival = (desk: Desk, document: Job | Shop): boolean =>
  desk.store.getState().rivals.some(({ body }) => same(body, document))

/** The same content, in whatever order its fields stand. */
const same = (a: Job | Shop, b: Job | Shop): boolean => canonical(a) === canonical(b)

/** A job with all that tells where its work stands, and none of what happened to other jobs. */
function fileOf(desk: Desk, id: string): JobFile {
  const { facts, shop } = desk.store.getState()
  const revision = jobOf(desk, id)
  const own = factsOf(facts, id)
  const named = new Set(own.flatMap(({ nest }) => nest ?? []))
  return { job: revision.body, shop, nests: withParents(desk, named), facts: own }
}

function withParents(desk: Desk, ids: ReadonlySet<string>): readonly Nest[] {
  const nests = new Map<string, Nest>()
  for (const start of ids)
    for (let nest = desk.nests.get(start); nest && !nests.has(nest.id); ) {
      nests.set(nest.id, nest)
      nest = nest.parent === undefined ? undefined : desk.nests.get(nest.parent)
    }
  return [...nests.values()]
}

/**
 * Facts of the job and of its nests; the rack facts that brought, measured or removed the steel which they name; and
 * every undo of any of these, however deep.
 */
function factsOf(facts: readonly Fact[], id: string): readonly Fact[] {
  const counts = counting(facts)
  const nests = new Set(
    facts.flatMap((fact) => {
      const read = known(fact)
      return read?.kind === 'accepted' && read.job === id ? [read.body.nest] : []
    }),
  )
  const own = facts.filter((fact) => fact.job === id || (fact.nest !== undefined && nests.has(fact.nest)))
  const racks = new Set(
    own.flatMap((fact) => {
      const read = known(fact)
      return read?.kind === 'opened' && read.body.rack !== undefined ? [read.body.rack] : []
    }),
  )
  const wanted = new Set(own.map((fact) => fact.id))
  for (const rack of racks) wanted.add(rack.split('/')[0]!)
  for (const fact of facts) {
    const read = known(fact)
    if (
      (read?.kind === 'corrected' || read?.kind === 'discarded') &&
      racks.has(read.body.rack) &&
      counts.has(fact.id)
    )
      wanted.add(fact.id)
  }
  // The log is in order, and an undo stands behind what it names: one pass finds undos of undos too.
  for (const fact of facts) {
    const read = known(fact)
    if (read?.kind === 'undo' && wanted.has(read.body.fact)) wanted.add(fact.id)
  }
  return facts.filter((fact) => wanted.has(fact.id))
}
