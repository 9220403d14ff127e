import { createContext, useContext } from 'react'
import { type StoreApi, useStore } from 'zustand'
import type { Actions, AppState } from '../app/state.ts'
import type { Shop } from '../core/shop.ts'

/** The store and what a person can do with it; main.tsx makes it, tests give their own. */
export interface App {
  readonly store: StoreApi<AppState>
  readonly actions: Actions
}

export const AppContext = createContext<App | null>(null)

function useTheApp(): App {
  const app = useContext(AppContext)
  if (!app) throw new Error('no AppContext above this component')
  return app
}

/** A piece of the state. The selector must give the same object for the same state (no new arrays or objects). */
export const useApp = <T>(selector: (state: AppState) => T): T => useStore(useTheApp().store, selector)

export const useActions = (): Actions => useTheApp().actions

export const useShop = (): Shop => useApp((state) => state.shop)
