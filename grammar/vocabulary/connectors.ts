/** Connectors and radio ends that a port can be: words of the trade, with what they carry by themselves. */
export interface Connector {
  readonly meaning: string;
  /** What plugs and sockets of this kind carry, where the port says nothing: from it and to it. */
  readonly carries: readonly ("sound" | "picture" | "network" | "power")[];
  /** Ends with the same family go together with a plain cable (or by radio). */
  readonly families: readonly string[];
  readonly radio?: true;
}

export const CONNECTOR_TYPES: Readonly<Record<string, Connector>> = {
  hdmi: { meaning: "HDMI, type A, C or D", carries: ["picture", "sound"], families: ["hdmi"] },
  displayport: { meaning: "DisplayPort", carries: ["picture", "sound"], families: ["displayport"] },
  vga: { meaning: "VGA", carries: ["picture"], families: ["vga"] },
  sdi: { meaning: "SDI", carries: ["picture", "sound"], families: ["sdi"] },
  "usb-a": { meaning: "USB type A", carries: ["sound", "picture", "network", "power"], families: ["usb"] },
  "usb-b": { meaning: "USB type B, mini or micro", carries: ["sound", "picture", "network", "power"], families: ["usb"] },
  "usb-c": { meaning: "USB type C", carries: ["sound", "picture", "network", "power"], families: ["usb"] },
  "jack-3": { meaning: "3.5 mm, three poles: line, headphones", carries: ["sound"], families: ["analogue"] },
  "jack-4": { meaning: "3.5 mm, four poles: headset", carries: ["sound"], families: ["analogue"] },
  "jack-6": { meaning: "6.35 mm", carries: ["sound"], families: ["analogue"] },
  rca: { meaning: "RCA, line", carries: ["sound"], families: ["analogue"] },
  xlr: { meaning: "XLR, three poles, balanced", carries: ["sound"], families: ["analogue"] },
  optical: { meaning: "optical digital sound", carries: ["sound"], families: ["optical"] },
  ethernet: { meaning: "twisted pair with eight contacts", carries: ["network"], families: ["ethernet"] },
  bluetooth: { meaning: "Bluetooth radio", carries: ["sound"], families: ["bluetooth"], radio: true },
  wifi: { meaning: "wireless network", carries: ["network"], families: ["wifi"], radio: true },
  mobile: { meaning: "mobile telephone network", carries: ["network"], families: ["mobile"], radio: true },
  "radio-microphone": { meaning: "radio of a wireless microphone", carries: ["sound"], families: ["radio-microphone"], radio: true },
};
export const CONNECTOR_WORDS: Readonly<Record<string, string>> =
  Object.fromEntries(Object.entries(CONNECTOR_TYPES).map(([word, row]) => [word, row.meaning]));

/** What a device can be. What a device does inside follows from its type. */
export const DEVICE_TYPES: Readonly<Record<string, string>> = {
  computer: "joins calls; everything that it takes or gives goes through it",
  camera: "takes a picture",
  microphone: "picks up sound",
  loudspeaker: "plays sound",
  speakerphone: "microphone and loudspeaker in one unit, with an echo canceller of its own",
  headset: "earphones and a microphone near the mouth of one person",
  mixer: "takes in many sounds and gives out mixes of them",
  interface: "turns sound from cables into sound for a computer, and back",
  grabber: "turns a picture from a cable into a picture for a computer",
  display: "shows a picture by itself",
  projector: "shows a picture on a surface",
  hub: "makes one port into several",
  switch: "joins network cables",
  "access-point": "gives a wireless network",
  powerline: "carries the network over mains wires; one of a pair",
  router: "brings in the internet",
  "power-bank": "a battery that gives power to others",
  lead: "an extension lead: one mains plug, several sockets",
  loop: "amplifier of a hearing loop",
  transmitter: "sends sound to receivers that people wear",
  recorder: "keeps sound for later",
  adapter: "passes on what it takes",
};
