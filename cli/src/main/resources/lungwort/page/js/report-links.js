import { html } from '/lib/lit-html.js';
import { t } from './texts.js';

const PARTS = ['name', 'notes', 'audio'];
const FORMATS = ['pdf', 'json', 'csv'];

/** Where reports are got, with what to leave out. */
export class ReportLinks {
  /**
   * @param base address of the reports, without the format
   * @param span what else to ask for, such as days, or nothing
   * @param changed draws the screen anew
   */
  constructor(base, changed, span = () => '') {
    Object.assign(this, { base, changed, span });
    this.left = new Set();
  }

  address(format) {
    const left = [...this.left].map((part) => `${part}=no`);
    const query = [this.span(), ...left].filter((q) => q).join('&');
    return `${this.base}/${format}${query ? `?${query}` : ''}`;
  }

  template() {
    const toggle = (part) => (event) => {
      if (event.target.checked) {
        this.left.add(part);
      } else {
        this.left.delete(part);
      }
      this.changed();
    };
    return html`
      <h2>${t('report.title')}</h2>
      <p>${t('report.hint')}</p>
      <fieldset><legend>${t('report.leaveOut')}</legend>
        ${PARTS.map((part) => html`<label class="check"><input type="checkbox" .checked=${this.left.has(part)} @change=${toggle(part)}>${t(`report.${part}`)}</label>`)}</fieldset>
      <div class="row">
        <a class="button quiet" id="report" href=${this.address('html')} target="_blank" rel="noopener">${t('report.html')}</a>
        ${FORMATS.map((format) => html`<a class="button quiet" href=${this.address(format)} download>${t(`report.${format}`)}</a>`)}
      </div>`;
  }
}
