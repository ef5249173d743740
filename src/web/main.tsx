/** Starts the app in the page. */
import { QueryClientProvider } from '@tanstack/react-query'
import { StrictMode } from 'react'
import { createRoot } from 'react-dom/client'
import { App } from './app/App.tsx'
import { applyTheme } from './app/theme.ts'
import { followEvents } from './data/events.ts'
import { startOutbox } from './data/outbox.ts'
import { queryClient } from './data/queryClient.ts'
import './style/tokens.css'
import './style/base.css'
import './style/shell.css'

applyTheme()
startOutbox(queryClient)
followEvents(queryClient)
createRoot(document.getElementById('app')!).render(
  <StrictMode>
    <QueryClientProvider client={queryClient}>
      <App />
    </QueryClientProvider>
  </StrictMode>,
)
