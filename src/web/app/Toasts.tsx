import { useSignal } from '../data/signal.ts'
import { dismiss, toasts } from './toasts.ts'

export function Toasts() {
  const shown = useSignal(toasts)
  return (
    <div className="toasts" role="status" aria-live="polite">
      {shown.map(({ key, said, undo }) => (
        <div key={key} className="toast">
          <span>{said}</span>
          {undo && (
            <button
              type="button"
              onClick={() => {
                dismiss(key)
                undo()
              }}
            >
              Undo
            </button>
          )}
          <button type="button" aria-label={`Hide: ${said}`} onClick={() => dismiss(key)}>
            ✕
          </button>
        </div>
      ))}
    </div>
  )
}
