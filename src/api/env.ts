/** What the middlewares of the api leave for those after them. */
export type ApiEnv = { readonly Variables: { requestId: string } }
