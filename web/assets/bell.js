// What is heard at the sink: each bath has a tone of its own, and the next move is spoken. Browsers let a page sound only
// after a first touch.

// The tones of the stations in order, Hz: steps of a pentatonic scale, so that no two beat against each other.
const tones = [523.25, 587.33, 698.46, 783.99, 932.33, 1046.5, 1174.66, 1396.91];

const kept = "wetside-volume";

// How a cue goes: when each tone begins and how long it lasts, in s, and its height against the bath's own.
const cues = {
  lift: [[0, 0.12, 1]],
  due: [[0, 0.18, 1], [0.26, 0.34, 1]],
  agitate: [[0, 0.1, 1], [0.12, 0.16, 1.5]],
  rest: [[0, 0.22, 0.5]],
  pour: [[0, 0.2, 1], [0.26, 0.2, 1], [0.52, 0.5, 1]],
};

export class Bell {
  constructor(language, changed) {
    Object.assign(this, { language, changed, volume: 0.6, speech: true, context: null, rung: [] });
    try {
      const [volume, speech] = (localStorage.getItem(kept) || "0.6 1").split(" ").map(Number);
      if (volume >= 0 && volume <= 1) this.volume = volume;
      this.speech = speech !== 0;
    } catch {
      // Nothing is kept here: the usual volume.
    }
  }

  // touched is called at each touch: the first lets the page sound.
  touched() {
    if (!this.context) {
      const Context = window.AudioContext || window.webkitAudioContext;
      if (!Context) return;
      this.context = new Context();
      this.context.onstatechange = () => this.changed();
    }
    if (this.context.state !== "running") this.context.resume().catch(() => {});
  }

  // cannot is why the page can't ring now; empty where it can.
  cannot() {
    if (this.volume === 0) return "muted";
    return this.context?.state === "running" ? "" : "no_sound";
  }

  set(volume, speech = this.speech) {
    this.volume = Math.round(Math.min(Math.max(volume, 0), 1) * 5) / 5;
    this.speech = speech;
    try {
      localStorage.setItem(kept, `${this.volume} ${this.speech ? 1 : 0}`);
    } catch {
      // Nothing is kept here.
    }
    if (!this.volume || !speech) window.speechSynthesis?.cancel();
    this.changed();
  }

  // ring sounds a cue in the tone of a station.
  ring(cue, station) {
    this.rung.push([cue, station]);
    if (this.cannot()) return;
    const start = this.context.currentTime + 0.02;
    for (const [at, long, height] of cues[cue]) {
      const tone = this.context.createOscillator();
      const gain = this.context.createGain();
      tone.type = "triangle";
      tone.frequency.value = tones[Math.max(station, 0) % tones.length] * height;
      gain.gain.setValueAtTime(0, start + at);
      gain.gain.linearRampToValueAtTime(this.volume * 0.5, start + at + 0.015);
      gain.gain.setValueAtTime(this.volume * 0.5, start + at + long - 0.03);
      gain.gain.linearRampToValueAtTime(0, start + at + long);
      tone.connect(gain).connect(this.context.destination);
      tone.start(start + at);
      tone.stop(start + at + long + 0.05);
    }
  }

  // say speaks, after what is being said.
  say(text) {
    if (!this.volume || !this.speech || !window.speechSynthesis) return;
    const words = new SpeechSynthesisUtterance(text);
    words.lang = this.language;
    words.volume = this.volume;
    speechSynthesis.speak(words);
  }
}
