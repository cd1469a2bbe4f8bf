// What findings say of zones: a zone that one names bears its number and looks like its term.
import type { Finding, Zone } from './api';
import { type Kind, kindOf } from './kinds';

export class FindingsOfZones {
  private readonly byZone = new Map<string, Finding[]>();

  /** Takes the painting's findings. */
  take(findings: readonly Finding[]): void {
    this.byZone.clear();
    for (const finding of findings) for (const zone of finding.content.zones) this.byZone.set(zone, [...(this.byZone.get(zone) ?? []), finding]);
  }

  /** How a zone is drawn: as its first finding's term, else as its own kind. */
  kind(zone: Zone): Kind {
    const term = this.byZone.get(zone.id)?.find((f) => f.content.term !== '')?.content.term;
    return kindOf(term ?? zone.kind);
  }

  /** The letters beside it, after the numbers of the findings that name it: "3, 7 Lo". */
  code(zone: Zone): string {
    const numbers = (this.byZone.get(zone.id) ?? []).map((f) => f.content.number).sort((a, b) => a - b);
    return [numbers.join(', '), this.kind(zone).code].filter(Boolean).join(' ');
  }
}
