import { act, fireEvent, screen, waitFor } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { Paper } from '../../../src/ui/paper/paper.tsx'
import { plan } from '../saw/bench-run.ts'
import { fakeApp, viewWith } from '../saw/fake-app.tsx'

const print = vi.fn()
beforeEach(() => vi.stubGlobal('print', print))
afterEach(() => {
  vi.unstubAllGlobals()
  print.mockReset()
})

function open(kept: boolean, state: 'found' | 'accepted' = 'found') {
  const app = fakeApp(viewWith({ nesting: { state } }))
  vi.mocked(app.actions.accept).mockImplementation(async () => kept)
  app.put((view) => <Paper view={view} />)
  return app
}
const press = () => fireEvent.click(screen.getByRole('button', { name: /^Print/ }))

describe('printing the cut sheet', () => {
  test('makes the nest the one to work by first, then prints', async () => {
    const { actions } = open(true)
    press()
    await waitFor(() => expect(print).toHaveBeenCalledTimes(1))
    expect(actions.accept).toHaveBeenCalledWith('job-1')
  })

  test('does not print what the disk did not take: the saw would work by another sheet', async () => {
    const { actions } = open(false)
    press()
    await waitFor(() => expect(actions.accept).toHaveBeenCalledTimes(1))
    await Promise.resolve()
    expect(print).not.toHaveBeenCalled()
  })

  test('of a nest that is worked by already, or of the other sheets alone, accepts nothing', async () => {
    const { actions } = open(false, 'accepted')
    press()
    await waitFor(() => expect(print).toHaveBeenCalledTimes(1))
    expect(actions.accept).not.toHaveBeenCalled()
  })

  test('is not offered while the saw cannot make every cut, and the sheet says where the reasons are', () => {
    const { run: _run, ...without } = plan
    const app = fakeApp(
      viewWith({ plan: { ...without, hindered: [{ code: 'x', text: 'Too short.' }] }, cuts: [] }),
    )
    app.put((view) => <Paper view={view} />)
    expect(screen.getByText(/the saw cannot make every cut/)).toBeTruthy()
    expect(screen.queryByRole('checkbox', { name: /Wall cut sheet/ })).toBeNull()
  })
})

test('"No sheet" holds for the sheets of the saw too, which come with the nest a moment later', () => {
  const { run: _run, ...before } = plan
  const app = fakeApp(viewWith({ plan: before, cuts: [], nesting: { state: 'working' } }))
  app.put((view) => <Paper view={view} />)
  fireEvent.click(screen.getByRole('button', { name: 'No sheet' }))
  act(() => app.store.setState({ views: { 'job-1': viewWith() } }))
  const boxes = screen.getAllByRole<HTMLInputElement>('checkbox')
  expect(screen.getByRole('checkbox', { name: /Wall cut sheet/ })).toBeTruthy()
  expect(boxes.filter(({ checked }) => checked)).toEqual([])
})
