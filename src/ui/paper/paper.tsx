import { Fragment, useMemo, useState } from 'react'
import { createPortal } from 'react-dom'
import type { JobView } from '../../app/state.ts'
import { possibleSheets, type Sheet } from '../../paper/sheets.ts'
import { type PageSize, pageSizes } from '../../paper/size.ts'
import { useActions, useApp, useShop } from '../app.ts'
import '../../paper/paper.css'
import './paper-station.css'

const pagesWord = (count: number) => (count === 1 ? '1 page' : `${count} pages`)

/** What hangs on the wall: the sheets at their true size, and the button that prints the chosen ones. */
export function Paper({ view, at }: { readonly view: JobView; readonly at?: string | undefined }) {
  const shop = useShop()
  const actions = useActions()
  const [size, setSize] = useState<PageSize>(pageSizes[shop.paper])
  const progress = useApp((state) => state.progress)
  const facts = useApp((state) => state.facts)
  const { plan, cuts, job } = view
  const views = useApp((state) => state.views)
  const together = view.together
  const beside = useMemo(() => together?.flatMap((other) => views[other]?.plan ?? []), [together, views])
  const possible = useMemo(
    () =>
      plan
        ? possibleSheets(plan).map((sheet) => ({
            sheet,
            pages: sheet.pages(plan, cuts, shop, size, {
              job,
              progress,
              facts,
              ...(beside ? { beside } : {}),
            }),
          }))
        : [],
    [plan, cuts, shop, size, job, progress, facts, beside],
  )
  // What the person has said of a sheet, or of all of them, also of those that come later with the nest; of all others the
  // usual ones are chosen, or the one that was asked for.
  const [said, setSaid] = useState<Readonly<Record<string, boolean>>>({})
  const [all, setAll] = useState<boolean>()
  const isChosen = ({ id, usual }: Sheet) => said[id] ?? all ?? (at === undefined ? usual : id === at)
  const chosen = possible.filter(({ sheet }) => isChosen(sheet))
  if (!plan)
    return (
      <div className="paper-station">
        <h1>Paper</h1>
        <p>There is no plan to print yet. {view.problems.map(({ text }) => text).join(' ')}</p>
      </div>
    )
  const print = async () => {
    // What hangs on the wall is what the saw works by: a nest that could not be kept is not printed, and why is said.
    const accepts = chosen.some(({ sheet }) => sheet.needsRun) && view.nesting.state === 'found'
    if (!accepts || (await actions.accept(view.id))) window.print()
  }
  const pages = chosen.flatMap(({ sheet, pages: its }) =>
    its.map((page, at) => ({ key: `${sheet.id} ${at}`, sheet: sheet.id, page })),
  )
  const chooseAll = (every: boolean) => {
    setAll(every)
    setSaid({})
  }
  return (
    <div className="paper-station">
      <div className="paper-choices">
        <h1>Paper</h1>
        {view.stale && (
          <p className="paper-note">The job has a mistake in it; these sheets are of the last good plan.</p>
        )}
        {!plan.run && (
          <p className="paper-note">
            {plan.hindered
              ? 'No cut sheet: the saw cannot make every cut of this job. The reasons stand at Saw.'
              : `The cut sheet and the sticks come with the nest${view.nesting.state === 'working' ? ', which is being worked out.' : '; see Stock.'}`}
          </p>
        )}
        <fieldset className="paper-sizes">
          <legend>Page</legend>
          {Object.values(pageSizes).map((page) => (
            <label key={page.name}>
              <input
                type="radio"
                name="page"
                checked={size.name === page.name}
                onChange={() => setSize(page)}
              />
              <span>{page.name}</span>
            </label>
          ))}
        </fieldset>
        <button
          type="button"
          className="main-button"
          disabled={pages.length === 0}
          onClick={() => void print()}
        >
          {pages.length > 0 ? `Print ${pagesWord(pages.length)}` : 'Print'}
        </button>
        <p className="paper-note">
          Print at 100 %, on {size.name}, without “fit to page”.
          {view.nesting.state === 'found' && ' Printing the cut sheet makes this nest the one to work by.'}
        </p>
        <fieldset className="paper-sheets">
          <legend>Sheets</legend>
          <div className="paper-all">
            <button type="button" onClick={() => chooseAll(true)}>
              Every sheet
            </button>
            <button type="button" onClick={() => chooseAll(false)}>
              No sheet
            </button>
          </div>
          {possible.map(({ sheet, pages: its }) => (
            <label key={sheet.id}>
              <input
                type="checkbox"
                checked={isChosen(sheet)}
                onChange={({ target }) => setSaid({ ...said, [sheet.id]: target.checked })}
              />
              <span>
                <b>{sheet.title}</b>, {pagesWord(its.length)}
                <br />
                {sheet.about}
              </span>
            </label>
          ))}
        </fieldset>
      </div>
      <div className="paper-preview">
        {pages.length === 0 && <p>No sheet is chosen.</p>}
        {pages.map(({ key, sheet, page }) => (
          <div className="paper-shown" key={key} data-sheet={sheet}>
            {page}
          </div>
        ))}
      </div>
      {createPortal(
        <div className="paper-print" aria-hidden="true">
          {pages.map(({ key, page }) => (
            <Fragment key={key}>{page}</Fragment>
          ))}
        </div>,
        document.body,
      )}
    </div>
  )
}
