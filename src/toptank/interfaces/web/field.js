// One field of the form. Every keystroke is kept in the browser at once and sent after a pause; it is dropped there only
// when the server has said that it is in the record. So a reload, a lost connection or a restart loses nothing.
const PAUSE = 900;

export default {
  template: `
    <div class="field" :data-how="hows.length ? shownHow : null" :data-state="state" :data-path="path" :data-row="row || null">
      <label :for="inputId">{{ label }} <small v-if="unit">{{ unit }}</small></label>
      <div class="write" :class="{ alone: !hows.length, chosen: kind === 'choice' }">
        <textarea v-if="kind === 'words'" ref="input" :id="inputId" v-model="text" :placeholder="hint"
          :aria-describedby="inputId + '-says'" :aria-invalid="!!error" :maxlength="longest" spellcheck="true"
          @input="typed" @blur="send"></textarea>
        <select v-else-if="kind === 'choice'" ref="input" :id="inputId" v-model="text"
          :aria-describedby="inputId + '-says'" :aria-invalid="!!error" @change="typedWhole">
          <option value="">{{ hint }}</option>
          <option v-for="one in choices" :key="one[0]" :value="one[0]">{{ one[1] }}</option>
        </select>
        <input v-else ref="input" :id="inputId" v-model="text" :placeholder="hint" type="text"
          :inputmode="kind === 'figure' ? 'text' : null" autocomplete="off" :maxlength="longest"
          :aria-describedby="inputId + '-says'" :aria-invalid="!!error"
          @input="typed" @blur="send" @keydown.enter="send">
        <select v-if="hows.length" class="how" :value="shownHow" :disabled="!text && !saved"
          :aria-label="'how it is known: ' + label" @change="chosenHow">
          <option v-for="one in hows" :key="one[0]" :value="one[0]">{{ one[1] }}</option>
        </select>
      </div>
      <div class="says" :id="inputId + '-says'" aria-live="polite"><b v-if="echo">{{ echo }}</b><template
        v-if="echo && (stands || more)"> · </template>{{ stands || more }}</div>
      <div v-if="error" class="wrong" role="alert">{{ error }}</div>
      <div v-if="remark && !error" class="remark">{{ remark }}</div>
      <div v-if="theirs !== null" class="clash" role="alert">
        <span>Somebody else wrote <b>{{ theirs || "nothing" }}</b> here meanwhile. Yours: <b>{{ text || "nothing" }}</b>.</span>
        <span class="line-up"><button type="button" class="press plain" @click="keepMine">Keep mine</button>
        <button type="button" class="press plain" @click="takeTheirs">Take theirs</button></span>
      </div>
    </div>`,
  props: {
    job: Number, path: String, row: String, label: String, unit: String, kind: String, hint: String, saved: String, how: String,
    hows: { type: Array, default: () => [] }, choices: { type: Array, default: () => [] }, echo: String, more: String,
    error: String, remark: String, clash: { default: null }, answered: { type: Number, default: 0 }, longest: Number,
  },
  emits: ["typed"],
  data() {
    return { text: this.saved || "", from: this.saved || "", turn: 0, dirty: false, sent: false, theirs: null, myHow: null,
      timer: null, out: false, mine: [] };
  },
  computed: {
    inputId() { return "f-" + this.path.replace(/[^a-z0-9]+/gi, "-"); },
    shownHow() { return this.myHow || this.how || "assumed"; },
    state() {
      if (this.error) return "wrong";
      return this.dirty ? (this.sent ? "sent" : "typing") : "saved";
    },
    stands() {
      if (this.theirs !== null) return "not saved";
      if (this.dirty && this.out) return "kept here, not saved: signed out";
      if (this.dirty && !this.error) return this.sent ? "saving …" : "writing …";
      return "";
    },
    kept() {  // a row by its name: its place is another's once somebody has taken a row out
      return "toptank:" + this.job + ":" + (this.row ? this.row + ":" + this.path.replace(/\.\d+\./, ".") : this.path);
    },
  },
  watch: {
    saved(now) { if (!this.dirty && this.theirs === null) this.text = this.from = now || ""; },
    answered(turn) {
      if (turn !== this.turn) return;
      this.sent = false;
      if (this.clash !== null && this.clash !== undefined) {
        if (this.sentBefore(this.clash)) { this.from = this.clash; this.turn = Date.now(); this.keep(); this.send(); }
        else this.theirs = this.clash;
        return;
      }
      if (this.error) return;
      this.dirty = false; this.myHow = null; this.mine = []; this.from = this.saved || "";
      if (this.kind !== "words" || document.activeElement !== this.$refs.input) this.text = this.saved || "";
      localStorage.removeItem(this.kept);
    },
  },
  created() {
    this.signedOut = () => (this.out = true);
    addEventListener("toptank-signed-out", this.signedOut);
  },
  mounted() {
    const kept = localStorage.getItem(this.kept);
    if (!kept) return;
    const { text, from, how, mine = [] } = JSON.parse(kept);
    if (text === (this.saved || "") && !how) { localStorage.removeItem(this.kept); return; }
    Object.assign(this, { text, from, mine, myHow: how, dirty: true });
    this.timer = setTimeout(this.send, 300);
  },
  beforeUnmount() {
    clearTimeout(this.timer);
    removeEventListener("toptank-signed-out", this.signedOut);
  },
  unmounted() {
    const { kept, row, text } = this;
    if (!row || !this.dirty) return;
    setTimeout(() => {
      if (!localStorage.getItem(kept) || document.querySelector(`.field[data-row="${row}"]`)) return;
      localStorage.removeItem(kept);
      window.toptank.say(`Somebody took that row out, so "${text}" was not saved.`);
    }, 500);
  },
  methods: {
    typed() {
      this.dirty = true; this.sent = false; this.turn = Date.now();
      this.keep();
      clearTimeout(this.timer);
      this.timer = setTimeout(this.send, PAUSE);
    },
    typedWhole() { this.typed(); this.send(); },
    chosenHow(event) { this.myHow = event.target.value; this.typedWhole(); },
    keep() {
      const { text, from, mine, myHow: how } = this;
      localStorage.setItem(this.kept, JSON.stringify({ text, from, mine, how }));
    },
    // What this field sent itself, and was saved though the answer got lost, is nobody else's.
    sentBefore(stands) { return this.mine.some((one) => stands === one || (one && stands.startsWith(one + " "))); },
    send() {
      clearTimeout(this.timer);
      if (!this.dirty || this.sent || this.theirs !== null) return;
      if (!window.socket?.connected) { this.timer = setTimeout(this.send, 500); return; }
      this.sent = true; this.turn = this.turn || Date.now();
      if (!this.mine.includes(this.text.trim())) { this.mine = [...this.mine.slice(-9), this.text.trim()]; this.keep(); }
      this.$emit("typed", { text: this.text, from: this.from, how: this.myHow, turn: this.turn });
      this.timer = setTimeout(() => { this.sent = false; this.send(); }, 8000);
    },
    keepMine() { this.from = this.theirs; this.theirs = null; this.dirty = true; this.turn = Date.now(); this.keep(); this.send(); },
    takeTheirs() {
      this.text = this.from = this.theirs; this.theirs = null; this.dirty = false; this.myHow = null;
      localStorage.removeItem(this.kept);
    },
  },
};
