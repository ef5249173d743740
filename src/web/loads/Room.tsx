export function Room() {
  return (
    <section className="empty">
      <h1>Loads</h1>
      <p>This room is still to be built.</p>
    </section>
  )
}
