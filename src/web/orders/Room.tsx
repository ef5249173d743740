export function Room() {
  return (
    <section className="empty">
      <h1>Orders</h1>
      <p>This room is still to be built.</p>
    </section>
  )
}
