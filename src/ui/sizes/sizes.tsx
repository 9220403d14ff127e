import './sizes.css'
import { useMemo, useRef, useState } from 'react'
import type { JobView } from '../../app/state.ts'
import type { ParamSpec } from '../../core/builds/build.ts'
import { buildOf } from '../../core/builds/index.ts'
import { startOf } from '../../core/builds/start.ts'
import { draftOf } from '../../core/draft.ts'
import type { Job, ParamGiven } from '../../core/job.ts'
import type { Problem } from '../../core/result.ts'
import { useActions, useShop } from '../app.ts'
import type { Resize } from '../drawing/drag.ts'
import { typedLengths } from '../drawing/fields.ts'
import { Pick } from '../fields/choice.tsx'
import { Count } from '../fields/count.tsx'
import { givenText } from '../fields/length-field.tsx'
import { TakeTable } from '../fields/take-table.tsx'
import { TextField } from '../fields/text-field.tsx'
import { BuildPicture } from '../jobs/build-picture.tsx'
import { unitsOf } from '../words.ts'
import { LandingsTable } from './landings-table.tsx'
import { LearnedHere } from './learned.tsx'
import { withNames } from './names.ts'
import { fieldId, ParamField, problemsOf } from './param-field.tsx'
import { PartsTable } from './parts-table.tsx'
import { type Look, Picture } from './picture.tsx'
import { Plates } from './plates.tsx'
import { BuiltSizes, PlatesAndHardware, Warnings } from './rest-of-plan.tsx'
import { partsOut } from './tables-out.ts'
import { Tipping } from './tipping.tsx'

/** Parameters under their headings, in the order of the build. */
function groupsOf(
  specs: readonly ParamSpec[],
): readonly { readonly name: string; readonly specs: readonly ParamSpec[] }[] {
  const groups = new Map<string, ParamSpec[]>()
  for (const spec of specs) {
    const name = spec.group ?? ''
    groups.set(name, [...(groups.get(name) ?? []), spec])
  }
  return [...groups].map(([name, grouped]) => ({ name, specs: grouped }))
}

function goToField(name: string) {
  const field = document.getElementById(fieldId(name))
  field?.scrollIntoView({ block: 'center' })
  field?.focus()
}

/** What must each piece be? A few sizes beside the drawing that follows from them, then every part. */
export function Sizes({ view }: { readonly view: JobView }) {
  const shop = useShop()
  const { editParams } = useActions()
  const [chosen, setChosen] = useState<string | null>(null)
  const { job, plan, problems, stale } = view
  const build = buildOf(job.build.kind)
  const units = job.units ?? unitsOf(shop.reading)
  const typed = useMemo(
    () => typedLengths(build?.params ?? [], job.build.params, units),
    [build, job.build.params, units],
  )
  // What the person asked for is drawn, with its dimensions, also where it is planned larger for the welds.
  const drawn = useMemo(() => (plan?.finished ? { ...plan, frame: plan.finished } : plan), [plan])
  const resize: Resize = {
    units,
    draft: (field, mm) =>
      draftOf({ ...job, build: { ...job.build, params: { ...job.build.params, [field]: mm } } }, shop),
    keep: (field, mm) =>
      editParams(job.id, { [field]: givenText(mm, shop.reading, units) }).then(() => undefined),
  }
  const [look, setLook] = useState<Look>('plan')
  const picture = useRef<HTMLDivElement>(null)
  const choose = (mark: string) => {
    setChosen((old) => (old === mark ? null : mark))
    setLook((old) => (old === 'part' ? 'plan' : old))
  }
  const draw = (mark: string) => {
    setChosen(mark)
    setLook('part')
    picture.current?.scrollIntoView({ block: 'start' })
    picture.current?.focus({ preventScroll: true })
  }
  return (
    <div className="sizes">
      <Fields view={view} units={units} />
      <div className="sizes-plan">
        {stale && (
          <p className="problem" role="status">
            The drawing and the numbers below are the last that worked; they do not show what is typed now.
          </p>
        )}
        {plan && drawn ? (
          <div className={stale ? 'plan-shown stale' : 'plan-shown'}>
            <div className="picture-place" ref={picture} tabIndex={-1}>
              <Picture
                plan={look === 'part' ? plan : drawn}
                reading={shop.reading}
                typed={typed}
                chosen={chosen}
                look={look}
                onLook={setLook}
                onChoose={choose}
                onField={goToField}
                resize={resize}
              />
            </div>
            <Warnings plan={plan} onChoose={setChosen} />
            <section className="figures" aria-labelledby="parts-head">
              <h2 id="parts-head">Parts</h2>
              <PartsTable
                parts={plan.parts}
                quantity={plan.quantity}
                reading={shop.reading}
                chosen={chosen}
                onChoose={choose}
                onDraw={draw}
              />
              <TakeTable
                name={job.name}
                what="parts"
                table={() => partsOut(plan.parts, plan.quantity, shop.reading)}
              />
            </section>
            <BuiltSizes plan={plan} reading={shop.reading} />
            <LearnedHere view={view} plan={plan} />
            <Tipping plan={plan} shop={shop} />
            <LandingsTable plan={plan} name={job.name} />
            <PlatesAndHardware plan={plan} shop={shop} chosen={chosen} onChoose={choose} onDraw={draw} />
            <Plates plan={plan} shop={shop} />
          </div>
        ) : (
          problems.length > 0 && (
            <p className="plain-page dim">There is no drawing until the sizes can be built.</p>
          )
        )}
      </div>
    </div>
  )
}

function Fields({ view, units }: { readonly view: JobView; readonly units: 'in' | 'mm' }) {
  const shop = useShop()
  const { editJob, editParams } = useActions()
  const { job, problems } = view
  const build = buildOf(job.build.kind)
  const params = job.build.params
  const asked = build?.params.filter((spec) => !spec.when || spec.when(params)) ?? []
  const loose = problems.filter(
    (problem) =>
      problem.field !== 'quantity' && !asked.some(({ name }) => problemsOf([problem], name).length > 0),
  )
  return (
    <section className="sizes-fields" aria-label="Sizes that are given">
      <div className="build-line">
        {build && <BuildPicture build={build} />}
        <p className="dim">
          {build?.title ?? job.build.kind}
          {units !== unitsOf(shop.reading) && `, typed in ${units === 'in' ? 'inches' : 'millimeters'}`}
        </p>
      </div>
      <Loose problems={loose} />
      <TextField
        label="Name of the job"
        value={job.name}
        onChange={(name) => void editJob(job.id, { name })}
      />
      <Count
        label="How many"
        value={job.quantity}
        least={1}
        most={1000}
        problem={problems.find(({ field }) => field === 'quantity')?.text}
        onChange={(quantity) => void editJob(job.id, { quantity })}
      />
      {groupsOf(asked).map(({ name, specs }) => (
        <fieldset key={name} className="group">
          {name && <legend>{name}</legend>}
          {specs.map((spec) => (
            <ParamField
              key={spec.name}
              spec={spec}
              given={params[spec.name] ?? (spec.late ? startOf(spec, units) : undefined)}
              params={params}
              shop={shop}
              units={units}
              problems={problems}
              onChange={(given: ParamGiven) =>
                void editParams(job.id, withNames(build?.params ?? [], params, spec, given))
              }
            />
          ))}
        </fieldset>
      ))}
      <Pick
        label="Weld seam of the tube"
        hint="Where it must lie in the finished frame. Fewer turnings are then allowed at the saw."
        options={seamChoices}
        value={job.seam ?? 'anywhere'}
        onChange={(seam) => void editJob(job.id, { seam: seam === 'anywhere' ? undefined : seam })}
      />
      <TextField
        label="Note"
        optional
        lines={3}
        value={job.note ?? ''}
        onChange={(note) => void editJob(job.id, { note })}
      />
    </section>
  )
}

const seamChoices: readonly {
  readonly value: 'anywhere' | NonNullable<Job['seam']>
  readonly label: string
}[] = [
  { value: 'anywhere', label: 'anywhere' },
  { value: 'top', label: 'on top' },
  { value: 'bottom', label: 'underneath' },
  { value: 'inside', label: 'inside' },
  { value: 'outside', label: 'outside' },
]

/** Problems that belong to no field in sight. */
function Loose({ problems }: { readonly problems: readonly Problem[] }) {
  if (problems.length === 0) return null
  return (
    <div className="problem" role="alert">
      {problems.map(({ text }) => (
        <p key={text}>{text}</p>
      ))}
    </div>
  )
}
