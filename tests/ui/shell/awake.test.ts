import { act, cleanup, renderHook } from '@testing-library/react'
import { afterEach, describe, expect, test, vi } from 'vitest'
import { useAwake } from '../../../src/ui/shell/awake.ts'

afterEach(() => {
  cleanup()
  Reflect.deleteProperty(navigator, 'wakeLock')
})

/** A browser with a wake lock; `held` counts the locks that are held now. */
function withLock(refuse = false) {
  const lock = { asked: 0, held: 0 }
  const request = vi.fn(async () => {
    lock.asked += 1
    if (refuse) throw new DOMException('battery', 'NotAllowedError')
    lock.held += 1
    return {
      release: async () => {
        lock.held -= 1
      },
    }
  })
  Object.defineProperty(navigator, 'wakeLock', { value: { request }, configurable: true })
  return lock
}

const settle = () => act(async () => undefined)

describe('the screen', () => {
  test('stays on while a floor station is open, and may sleep after it', async () => {
    const lock = withLock()
    const { rerender, unmount } = renderHook(({ on }) => useAwake(on), { initialProps: { on: true } })
    await settle()
    expect(lock.held).toBe(1)
    rerender({ on: false })
    await settle()
    expect(lock.held).toBe(0)
    rerender({ on: true })
    await settle()
    unmount()
    await settle()
    expect(lock).toEqual({ asked: 2, held: 0 })
  })

  test('is asked to stay on again when the page comes back', async () => {
    const lock = withLock()
    renderHook(() => useAwake(true))
    await settle()
    document.dispatchEvent(new Event('visibilitychange'))
    await settle()
    expect(lock.asked).toBe(2)
  })

  test('left before the lock came, the lock is let go as it comes', async () => {
    const lock = withLock()
    const { unmount } = renderHook(() => useAwake(true))
    unmount()
    await settle()
    expect(lock).toEqual({ asked: 1, held: 0 })
  })

  test('is left alone where there is no lock, where it is refused, and at the desk', async () => {
    renderHook(() => useAwake(true))
    await settle()
    const refused = withLock(true)
    renderHook(() => useAwake(true))
    await settle()
    expect(refused).toEqual({ asked: 1, held: 0 })
    const free = withLock()
    renderHook(() => useAwake(false))
    await settle()
    expect(free.asked).toBe(0)
  })
})
