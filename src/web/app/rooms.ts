/** The rooms of the app; each is loaded when it is first entered. */
import { type ComponentType, type LazyExoticComponent, lazy } from 'react'

export type Room = {
  readonly path: string
  readonly name: string
  readonly Room: LazyExoticComponent<ComponentType>
}

export const rooms: readonly Room[] = [
  { path: '/', name: 'Bench', Room: lazy(() => import('../bench/Room.tsx').then(({ Room }) => ({ default: Room }))) },
  { path: '/week', name: 'Week', Room: lazy(() => import('../week/Room.tsx').then(({ Room }) => ({ default: Room }))) },
  {
    path: '/loads',
    name: 'Loads',
    Room: lazy(() => import('../loads/Room.tsx').then(({ Room }) => ({ default: Room }))),
  },
  {
    path: '/orders',
    name: 'Orders',
    Room: lazy(() => import('../orders/Room.tsx').then(({ Room }) => ({ default: Room }))),
  },
]

/** @returns undefined where there is none */
export const roomAt = (address: string): Room | undefined =>
  rooms.find(({ path }) => path === (address.length > 1 ? address.replace(/\/$/, '') : address))
