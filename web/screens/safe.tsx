import { Component, type ComponentChildren } from 'preact'

/** If a screen fails to draw, say so and offer a way out: the log holds every answer that was acknowledged. */
export class Safe extends Component<{ children: ComponentChildren }, { failed?: string }> {
  override componentDidCatch(problem: unknown): void {
    this.setState({ failed: problem instanceof Error ? problem.message : String(problem) })
  }
  override render() {
    if (this.state.failed === undefined) return this.props.children
    return (
      <main class="place">
        <h1>This screen failed</h1>
        <p role="alert">Every saved answer is kept. Reload, then go on where it was left.</p>
        <p class="source">{this.state.failed}</p>
        <div class="actions">
          <button type="button" class="primary" onClick={() => location.reload()}>
            Reload the app
          </button>
        </div>
      </main>
    )
  }
}
