// A place for photos and logs: sent one by one, with how far it is, and what was not taken said beside it.
export default {
  template: `
    <div class="field">
      <label for="upload">{{ label }}</label>
      <input id="upload" ref="input" type="file" :multiple="!onward" :accept="takes" @change="sendAll($event.target)" aria-describedby="upload-says">
      <template v-if="camera">
        <label for="camera">Take a photo</label>
        <input id="camera" type="file" accept="image/*" capture="environment" @change="sendAll($event.target)" aria-describedby="upload-says">
      </template>
      <div id="upload-says" class="says" aria-live="polite">{{ says }}</div>
      <div v-for="one in wrong" class="wrong" role="alert">{{ one }}</div>
    </div>`,
  props: { address: String, takes: String, largest: Number, label: String, onward: String, camera: Boolean },
  data() { return { says: "", wrong: [] }; },
  methods: {
    async sendAll(input) {
      this.wrong = [];
      for (const file of [...input.files]) {
        this.says = "sending " + file.name + " …";
        if (file.size > this.largest) {
          this.wrong.push(file.name + ": larger than " + Math.floor(this.largest / 1048576) + " MiB");
          continue;
        }
        const form = new FormData();
        form.append("file", file);
        try {
          const answer = await fetch(this.address, { method: "POST", body: form });
          const told = await answer.json().catch(() => ({}));
          if (!answer.ok) this.wrong.push(file.name + ": " + (told.refused || answer.status));
          else if (this.onward) return window.location.assign(this.onward + told.checksum);
        } catch { this.wrong.push(file.name + ": the server did not answer; try again"); }
      }
      this.says = "";
      input.value = "";
    },
  },
};
