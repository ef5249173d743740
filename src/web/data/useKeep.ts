/** Sets down and removes what the potter keeps one by one: orders, pins. */
import { useMutation, useQueryClient } from '@tanstack/react-query'
import type { OrderRecord, PinRecord, StockRecord } from '#contract/order.ts'
import { toast } from '#web/app/toasts.ts'
import { answerOf, client } from './client.ts'
import { keys } from './queries.ts'

export const useKeepOrder = () =>
  useKeep((order: OrderRecord) => client.orders[':id'].$put({ param: { id: order.id }, json: order as never }))

export const useRemoveOrder = () => useKeep((id: string) => client.orders[':id'].$delete({ param: { id } }))

export const useKeepStock = () =>
  useKeep((stock: StockRecord) => client.stock[':id'].$put({ param: { id: stock.id }, json: stock as never }))

export const useKeepPin = () =>
  useKeep((pin: PinRecord) => client.pins[':id'].$put({ param: { id: pin.id }, json: pin as never }))

export const useRemovePin = () => useKeep((id: string) => client.pins[':id'].$delete({ param: { id } }))

type Then = { readonly onSuccess?: () => void; readonly onError?: (error: unknown) => void }

function useKeep<Sent>(call: (sent: Sent) => Promise<{ readonly ok: boolean; json(): Promise<unknown> }>) {
  const queries = useQueryClient()
  const { isPending, mutateAsync } = useMutation({
    mutationFn: (sent: Sent) => answerOf(call(sent)),
    onError: ({ message }) => toast({ said: `It could not be kept: ${message}` }),
    onSuccess: () => queries.invalidateQueries({ queryKey: keys.studio }),
  })
  return {
    isPending,
    // What follows is done even where that which was removed has left the screen, and with it whoever asked.
    mutate: (sent: Sent, { onSuccess, onError }: Then = {}): void => {
      mutateAsync(sent).then(onSuccess, (error: unknown) => onError?.(error))
    },
  }
}
