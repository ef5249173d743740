/** One cache of what the server said, for the whole page. */
import { QueryClient } from '@tanstack/react-query'
import { Unmet } from './client.ts'

/** Old data is shown until newer is there: the events say when that is, so nothing is asked for by the clock. */
export const queryClient = new QueryClient({
  defaultOptions: {
    queries: {
      staleTime: Infinity,
      gcTime: Infinity,
      retry: (count, error) => !(error instanceof Unmet) && count < 2,
      retryDelay: 1_000,
      networkMode: 'always',
    },
    mutations: { networkMode: 'always' },
  },
})
