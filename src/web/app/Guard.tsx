import { Component, type ReactNode } from 'react'

type Props = { readonly children: ReactNode }

/** Where drawing a room fails, the rest of the app stays. A class, since React knows no other way to catch that. */
export class Guard extends Component<Props, { readonly error: Error | null }> {
  override state = { error: null }

  static getDerivedStateFromError(error: Error) {
    return { error }
  }

  override render() {
    if (this.state.error === null) return this.props.children
    return (
      <section className="empty" role="alert">
        <h1>This room could not be shown</h1>
        <p>Nothing you logged is lost. Try again; if it stays like this, the other rooms still work.</p>
        <button type="button" className="button" onClick={() => this.setState({ error: null })}>
          Try again
        </button>
      </section>
    )
  }
}
