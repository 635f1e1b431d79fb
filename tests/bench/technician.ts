import type { Kit, Machine } from '../../engine/machine.ts'
import type { Act, Finding, Read } from '../../engine/step.ts'
import { isAlive, type Live, live, ohmsBetween, voltsBetween } from './circuit.ts'
import { findingSeconds, stepSeconds } from './costs.ts'
import { judge, type Verdict } from './judge.ts'
import { CLAMP, display, OHM, SERIES, VOLT } from './meter.ts'
import { opensAtOnce, Warmth } from './protection.ts'
import { type Chance, chance } from './random.ts'
import { SafetyMonitor } from './safety.ts'
import { type Fault, faultsOf, foundState, type State, shortOf, type Truth } from './truth.ts'
import type { Out } from './wizard.ts'

export interface Habits {
  /** Share of readings, looks and walks that the technician cannot do. */
  readonly cannot?: number
  /** Share of readings that are read or typed wrong. */
  readonly wrong?: number
  /** Wrong also by a factor of 1000, with the probes on another branch, and by a device that was said to be opened and is not. */
  readonly slips?: boolean
  /** Names the branch or load that is out of service, at the start. */
  readonly tells?: boolean
}

/** A simulated technician at an invented machine: does what is asked and answers as the machine and the meter do. */
export class Technician {
  readonly state: State
  readonly monitor: SafetyMonitor
  readonly verdicts: Verdict[] = []
  /** Seconds by the table of costs so far, and when the place of the fault was known. */
  seconds = 0
  secondsToPlace: number | undefined
  /** What was proved since the supply last came on. */
  private proved = { lamp: false, volts: false, ohmAfterMend: false }
  private mended = false
  private zeroed = false
  /** Seconds that a buffer has not been filled. */
  private unfed = 0
  /** What was found and not mended yet. */
  private at: Fault | undefined
  /** Devices said to be open that are closed. */
  private readonly notOpened = new Set<string>()
  private readonly chance: Chance
  private readonly warmth: Warmth
  private now: Live
  private readonly truth: Truth
  private readonly shown: Machine
  private readonly kit: Kit
  private readonly habits: Habits

  /** `shown`: the machine file as the wizard has it, the real one or less. */
  constructor(truth: Truth, shown: Machine, kit: Kit, habits: Habits = {}) {
    this.truth = truth
    this.shown = shown
    this.kit = kit
    this.habits = habits
    this.chance = chance(truth.seed)
    this.state = foundState(truth)
    this.monitor = new SafetyMonitor(shown, kit)
    this.warmth = new Warmth(truth)
    this.state.rush = rushes(truth, this.state)
    // A supply that latches has done so long before the technician comes.
    this.now = live(truth, this.state)
    if (truth.supply.mode === 'latch-off' && this.now.supply.limited) {
      this.state.latched = true
      this.now = live(truth, this.state)
    }
  }

  get found(): boolean {
    return this.secondsToPlace !== undefined
  }

  /** Is the machine whole, as it was before the fault, switched on and proved? */
  get restored(): boolean {
    const { supply, latched, bus, bond, devices, unplugged, opened, injector } = this.state
    const whole = bus === 'joined' && bond === 'joined' && unplugged.size === 0 && opened.size === 0 && injector === undefined
    const on = supply === 'on' && !latched && !this.now.supply.limited && [...devices.values()].every(d => d === 'closed')
    const checked = this.proved.lamp && this.proved.volts && (this.proved.ohmAfterMend || shortOf(this.truth.fault) === undefined)
    return faultsOf(this.state).every(f => f.kind === 'none') && whole && on && checked
  }

  private onto(): boolean {
    if (this.state.supply !== 'on') return false
    const { branch, shorts } = this.now
    return shorts.some(x => this.state.devices.get(x.branch) === 'closed' && x.ampere > 0.1 && (branch.get(x.branch) ?? 0) > 0.1)
  }

  /** As the technician takes the devices to stand. */
  private believed(): State {
    if (this.notOpened.size === 0) return this.state
    const devices = new Map([...this.state.devices].map(([id, stands]) => [id, this.notOpened.has(id) ? ('open' as const) : stands]))
    return { ...this.state, devices }
  }

  /** A short circuit that comes and goes is there, or not, as chance has it each time that anybody looks. */
  private moves(): void {
    const present = faultsOf(this.state)
      .map(f => ('present' in f ? f.present : undefined))
      .find(x => x !== undefined)
    if (present === undefined) return
    this.state.away = !this.chance.yes(present)
    this.settle()
  }

  /** After a change: devices that open at once, a supply that latches. Returns true if the short circuit was live on the way. */
  private settle(): boolean {
    let onto = false
    for (;;) {
      this.now = live(this.truth, this.state)
      onto ||= this.onto()
      const opens = [...this.now.branch].filter(([id, ampere]) => opensAtOnce(this.truth, id, ampere))
      for (const [id] of opens) this.state.devices.set(id, 'tripped')
      if (opens.length > 0) continue
      if (this.truth.supply.mode !== 'latch-off' || this.state.latched || !this.now.supply.limited) return onto
      this.state.latched = true
    }
  }

  private pass(out: { readonly n: number }, seconds: number): void {
    this.seconds += seconds
    this.drains(seconds)
    this.monitor.passes(out, seconds, this.onto())
    // The other supply that may feed a branch gives less than any device opens at.
    const opened = isAlive(this.state) ? this.warmth.pass(this.now, this.state, seconds) : []
    for (const id of opened) this.state.devices.set(id, 'tripped')
    if (opened.length > 0) this.settle()
  }

  /** What a buffer holds is gone some time after the supply that fills it. */
  private drains(seconds: number): void {
    const { buffer } = this.truth
    if (buffer === undefined) return
    this.unfed = isAlive(this.state) && this.unfed < Infinity ? 0 : this.unfed + seconds
    this.state.drained = this.unfed > buffer
    this.settle()
  }

  /** One step of the wizard's: time passes, then it is done. */
  step(out: Extract<Out, { say: 'step' }>): unknown {
    const { step } = out
    this.monitor.asked(out, this.believed(), this.now)
    if (step.kind === 'finding') return this.lookAt(out, step.finding)
    this.pass(out, stepSeconds(this.truth.machine, step))
    this.moves()
    const walks = step.kind !== 'act' || step.act.act === 'run' || step.act.act === 'load'
    if (walks && this.chance.yes(this.habits.cannot ?? 0)) return { cannot: 'out of reach' }
    if (step.kind === 'act') return this.act(out, step.act)
    if (step.kind === 'look') {
      if (step.look === 'supply-lamp') this.proved.lamp = true
      return {
        seen:
          step.look === 'device' ? this.state.devices.get(step.branch) : step.look === 'mains-lamp' ? this.mainsLamp() : this.supplyLamp(),
      }
    }
    return this.read(step)
  }

  mend(out: Extract<Out, { say: 'mend' }>): unknown {
    this.monitor.asked(out, this.believed(), this.now)
    if (this.at !== undefined) {
      if (this.state.fault === this.at) this.state.fault = { kind: 'none' }
      else delete this.state.second
      this.at = undefined
      this.mended = true
    }
    this.now = live(this.truth, this.state)
    return { done: true }
  }

  confirm(out: Extract<Out, { say: 'confirm' }>): unknown {
    this.monitor.asked(out, this.believed(), this.now)
    return { done: true }
  }

  private lookAt(out: { readonly n: number }, finding: Finding): unknown {
    this.pass(out, findingSeconds(this.truth.machine, finding))
    // Whoever looks for a second supply at the bus finds the buffer, and takes it off.
    if (finding.fault === 'backfeed' && finding.branch === undefined && this.truth.buffer !== undefined && this.unfed < Infinity) {
      this.unfed = Infinity
      this.drains(0)
      return { confirmed: true }
    }
    const known = this.shown.branches.find(b => b.id === finding.branch)?.wiring !== undefined
    const all = faultsOf(this.state).map(fault => ({ fault, verdict: judge(this.truth.machine, fault, finding, known) }))
    const { fault, verdict } = all.find(x => x.verdict.found) ??
      all[0] ?? { verdict: judge(this.truth.machine, { kind: 'none' }, finding, known) }
    this.verdicts.push(verdict)
    if (verdict.found) {
      this.at = fault
      this.secondsToPlace ??= this.seconds
      // Whoever finds the other supply switches it off and secures it before anything else.
      if (fault?.kind === 'backfeed') this.state.otherOff = true
      this.now = live(this.truth, this.state)
    }
    return { confirmed: verdict.found }
  }

  private act(out: { readonly n: number }, act: Act): unknown {
    const before = this.onto()
    const held = this.now.supply.limited
    const answer = this.change(act)
    if (!('cannot' in answer)) this.monitor.done(act, this.believed(), 'done' in answer)
    // A rush is as large as what is switched on at once; what is shed while the supply tries again makes it smaller.
    const sheds = act.act === 'device' && act.to === 'open' && held
    if (act.act === 'supply' || sheds) this.state.rush = rushes(this.truth, this.state)
    if (act.act === 'supply') this.proved = { ...this.proved, lamp: false, volts: false }
    const onto = this.settle()
    if (onto && !before) this.monitor.energised(out)
    return answer
  }

  private change(
    act: Act,
  ): { readonly cannot: string } | { readonly done: true } | { readonly volts: number } | { readonly value: number | 'OL' } {
    const { state, truth } = this
    const done = { done: true } as const
    switch (act.act) {
      case 'supply': {
        state.supply = act.to
        if (act.to === 'off') state.latched = false
        return done
      }
      case 'prove-dead': {
        const volts = Math.abs(this.volts(state.injector === undefined ? 'bus' : state.injector.branch))
        return volts > 1 ? { volts: Math.round(volts * 10) / 10 } : done
      }
      case 'zero-leads': {
        const shown = display(OHM, truth.meter.ohm, this.zeroed ? truth.meter.zeroed : truth.meter.leads, this.chance)
        this.zeroed = true
        return { value: shown }
      }
      case 'device':
        return this.switchDevice(act)
      case 'load': {
        const load = truth.machine.branches.find(b => b.id === act.branch)?.loads?.find(l => l.id === act.load)
        if (load === undefined || load.pluggable === false) return { cannot: 'it has no plug' }
        state.unplugged[act.to === 'unplugged' ? 'add' : 'delete'](`${act.branch}/${act.load}`)
        return done
      }
      case 'run': {
        state.opened[act.to === 'opened' ? 'add' : 'delete'](act.run)
        return done
      }
      case 'bus': {
        state.bus = act.to
        return done
      }
      case 'bond': {
        if (!truth.machine.supply.zeroVoltBonded) return { cannot: 'there is no bond' }
        state.bond = act.to
        return done
      }
      case 'inject': {
        if (this.kit.injector === undefined) return { cannot: 'no injector here' }
        if (act.to === 'on') state.injector = { branch: act.branch, into: act.into ?? 'zero' }
        else delete state.injector
        return done
      }
    }
  }

  private switchDevice(act: Act & { act: 'device' }): { readonly cannot: string } | { readonly done: true } {
    const kind = this.truth.machine.branches.find(b => b.id === act.branch)?.protection?.kind
    if (kind === 'none') return { cannot: 'this branch has no device' }
    // Whoever leads knows nothing of a fuse; the technician sees it and leaves it alone under load.
    const told = this.shown.branches.find(b => b.id === act.branch)?.protection?.kind
    if (kind === 'fuse' && told === undefined && this.state.supply === 'on') return { cannot: 'a fuse, not under load' }
    this.notOpened.delete(act.branch)
    if (act.to === 'open' && this.habits.slips && this.state.supply === 'off' && this.chance.yes(this.habits.wrong ?? 0)) {
      this.notOpened.add(act.branch)
      return { done: true }
    }
    this.state.devices.set(act.branch, act.to)
    const { fault } = this.state
    if (act.to === 'closed' && fault.kind === 'device-open' && fault.branch === act.branch && fault.behind === undefined) {
      this.state.fault = { kind: 'none' }
      this.secondsToPlace ??= this.seconds
    }
    return { done: true }
  }

  private supplyLamp(): string {
    const { state, truth } = this
    if (!isAlive(state)) return 'off'
    if (!this.now.supply.limited) return 'steady'
    return truth.supply.mode === 'hiccup' ? 'blinking' : truth.lampUnderLimit
  }
  private mainsLamp(): string {
    return this.state.supply === 'on' && faultsOf(this.state).every(f => f.kind !== 'no-mains') ? 'on' : 'off'
  }
  private volts(of: string): number {
    return voltsBetween(this.truth, this.state, this.now, `${of}.plus`, `${of}.zero`)
  }

  private read(asked: Read): unknown {
    const { truth, state } = this
    const step = this.maybeElsewhere(asked)
    // A supply that pulses gives a small mean that will not settle.
    const pulses = truth.supply.mode === 'hiccup' && this.now.supply.limited
    const mean = pulses ? this.chance.between(0.03, 0.12) : 1
    const shown = (value: number | 'OL'): unknown => ({
      value: this.maybeWrong(value),
      ...(pulses && step.meter !== 'ohm' ? { unsteady: true } : {}),
    })
    if (step.meter === 'amp') {
      if (state.injector?.branch === step.branch)
        return { value: this.maybeWrong(display(SERIES, [truth.meter.series], this.now.injector.ampere, this.chance)) }
      if (!this.kit.clamp) return { cannot: 'no clamp here' }
      return shown(display(CLAMP, [truth.meter.clamp], (this.now.branch.get(step.branch) ?? 0) * mean, this.chance))
    }
    if (step.meter === 'volt') {
      if (step.red !== 'supply.plus' || state.bus === 'joined') this.proved.volts = true
      return shown(display(VOLT, truth.meter.volt, voltsBetween(truth, state, this.now, step.red, step.black) * mean, this.chance))
    }
    if (this.mended) this.proved.ohmAfterMend = true
    const leads = this.zeroed ? truth.meter.zeroed : truth.meter.leads
    return shown(display(OHM, truth.meter.ohm, ohmsBetween(truth, state, step.red, step.black) + leads, this.chance))
  }

  /** A digit missed or a point misplaced; not so that a voltage seems to be no extra-low one, which would end the session. */
  private maybeWrong(value: number | 'OL'): number | 'OL' {
    if (value === 'OL' || !this.chance.yes(this.habits.wrong ?? 0)) return value
    if (this.habits.slips && this.chance.yes(0.3)) return Number((value / 1000).toFixed(4))
    return Number((value * (Math.abs(value) < 5 ? this.chance.pick([0.1, 10]) : 0.1)).toFixed(4))
  }

  /** The probes on the terminals of another branch, dead only: a wrong pair under voltage is no different from a wrong reading. */
  private maybeElsewhere(step: Read): Read {
    if (!this.habits.slips || step.meter !== 'ohm' || !this.chance.yes((this.habits.wrong ?? 0) / 2)) return step
    const other = this.chance.pick(this.truth.machine.branches).id
    return { ...step, red: `${other}.plus`, black: `${other}.zero` }
  }
}

/** Does what is closed now, switched on at once, hold the supply down? Shares of the machine's whole load. */
const rushes = (truth: Truth, state: State): boolean => {
  const rush = faultsOf(state).find(f => f.kind === 'in-rush')
  if (rush === undefined || state.supply === 'off') return false
  const watts = (id: string): number =>
    (truth.machine.branches.find(b => b.id === id)?.loads ?? []).reduce((sum, l) => sum + (l.watts ?? 5), 0)
  const all = truth.machine.branches.map(b => b.id)
  const closed = all.filter(id => state.devices.get(id) === 'closed')
  const sum = (ids: readonly string[]): number => ids.reduce((total, id) => total + watts(id), 0)
  return sum(closed) > rush.share * sum(all)
}
