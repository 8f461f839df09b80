/** Flows to draw, built by hand: the drawing is tested without the engine that computes flows. All names are invented. */
import type { Band, Flow, Hop, Post, Run, Via } from "../../server/signal/drawing/flow";

/** A hop from `post.port` to `post.port`. */
export function hop(from: string, to: string, via: Via, more: Partial<Pick<Hop, "remark" | "gap" | "where">> = {}): Hop {
  const [fromPost = "", fromPort] = from.split(".");
  const [toPost = "", toPort] = to.split(".");
  return { from: fromPost, to: toPost, fromPort, toPort, via, ...more };
}

export function run(title: string, hops: readonly Hop[], turnsAt?: number): Run {
  return { id: title, title, hops, complete: hops.every((each) => each.gap === undefined), turnsAt };
}

export function post(id: string, role: Post["role"], detail?: string, more: Partial<Post> = {}): Post {
  return { id, name: id, role, detail, ...more };
}

const where = (start: number): { path: string; start: number; end: number } => ({ path: "evening.bothways", start, end: start + 12 });

export function band(way: Band["way"], verdict: Band["verdict"], sentence: string, runs: readonly Run[]): Band {
  return { way, verdict, sentence, runs };
}

const online = post("online", "online-people", "8 people", { name: "people online" });
const call = post("call", "call", undefined, { name: "the call" });

/** What a dozen words about an evening already tell: a loudspeaker that nobody has connected, and much that is open. */
export function smallest(): Flow {
  return {
    title: "October",
    posts: [
      post("seats", "room-people", "24 seats in 4 rows", { name: "audience" }),
      post("lectern", "room-people", "talker"),
      post("box", "device", "battery loudspeaker", { where: where(62) }),
      post("laptop", "device", "laptop", { where: where(104) }),
      call, online,
    ],
    bands: [
      band("room-hears-online", "cannot-tell", "Nothing says how the laptop's sound gets to box.", [
        run("the people online to the audience", [
          hop("online", "call", "call"), hop("call", "laptop", "call"), hop("laptop", "box", "cable", { gap: "connected how?", where: where(150) }),
          hop("box", "seats", "air", { remark: "2 m to 9 m" }),
        ]),
      ]),
      band("online-hears-room", "doubtful", "The laptop's own microphone hears the lectern, not the back rows.", [
        run("the lectern to the people online", [hop("lectern", "laptop.microphone", "air", { remark: "0.6 m" }), hop("laptop", "call", "call"), hop("call", "online", "call")]),
        run("the audience to the people online", [
          hop("seats", "laptop.microphone", "air", { gap: "too far: 9 m" }), hop("laptop", "call", "call"), hop("call", "online", "call"),
        ]),
      ]),
      band("room-sees-online", "fails", "The people online are seen on the laptop's screen only: too small from row 2 on.", [
        run("the people online to the audience", [
          hop("online", "call", "call"), hop("call", "laptop", "call"), hop("laptop.screen", "seats", "sight", { gap: "too small from row 2" }),
        ]),
      ]),
      band("online-sees-room", "cannot-tell", "The laptop's camera sees the lectern; whether it sees the audience depends on its aim.", [
        run("the lectern to the people online", [hop("lectern", "laptop.camera", "sight", { remark: "0.6 m" }), hop("laptop", "call", "call"), hop("call", "online", "call")]),
      ]),
    ],
    echoes: [],
    call: { verdict: "doubtful", sentence: "One device carries everything." },
    internet: { verdict: "cannot-tell", sentence: "About 2.7 Mb/s are needed upwards; nothing says what there is." },
  };
}

/** An association's evening: a loudspeaker by radio, a projector, a lapel microphone, a camera, and a telephone that shows the room. */
export function association(): Flow {
  const toLaptop = [hop("online", "call", "call"), hop("call", "laptop", "call")];
  const toOnline = [hop("laptop", "call", "call"), hop("call", "online", "call")];
  return {
    title: "Thursday Beekeepers, autumn meeting",
    item: "questions",
    posts: [
      post("audience", "room-people", "24 seats", { where: where(20) }),
      post("Ines", "room-people", "talker", { where: where(60) }),
      post("lapel", "device", "lapel microphone", { where: where(100) }),
      post("box", "device", "loudspeaker", { where: where(140) }),
      post("projector", "device", "projector", { where: where(180) }),
      post("stage-camera", "device", "camera", { where: where(220) }),
      post("laptop", "device", "laptop", { where: where(260) }),
      post("phone", "device", "telephone", { where: where(300) }),
      call, online,
    ],
    bands: [
      band("room-hears-online", "works", "Every seat hears the people online; the last row by 4 dB to spare.", [
        run("the people online to the audience", [
          ...toLaptop, hop("laptop.bluetooth", "box.bluetooth", "radio", { where: where(350) }), hop("box", "audience", "air", { remark: "3 m to 9 m" }),
        ]),
      ]),
      band("online-hears-room", "fails", "No microphone hears the audience's questions.", [
        run("Ines to the people online", [
          hop("Ines", "lapel", "air", { remark: "0.2 m" }), hop("lapel.plug", "laptop.headset", "cable", { where: where(380) }), ...toOnline,
        ]),
        run("the audience to the people online", [hop("audience", "online", "air", { gap: "no microphone hears the audience" })]),
      ]),
      band("room-sees-online", "works", "Slides and faces fill the screen; letters are large enough for row 4.", [
        run("the people online to the audience", [
          ...toLaptop, hop("laptop.hdmi", "projector.hdmi", "cable", { remark: "10 m", where: where(420) }), hop("projector.image", "audience", "sight"),
        ]),
      ]),
      band("online-sees-room", "doubtful", "The telephone sends 360p15: faces in row 4 have 9 pixels between the eyes.", [
        run("Ines to the people online", [
          hop("Ines", "stage-camera", "sight", { remark: "5.2 m" }), hop("stage-camera.usb", "laptop.usb-1", "cable", { remark: "5 m", where: where(450) }), ...toOnline,
        ]),
        run("the audience to the people online", [
          hop("audience", "phone.rear-camera", "sight", { remark: "2 m to 7 m" }), hop("phone", "call", "call", { remark: "360p15" }), hop("call", "online", "call"),
        ]),
      ]),
    ],
    echoes: [],
    call: { verdict: "works", sentence: "laptop sends and plays sound; phone sends a picture only." },
    internet: { verdict: "doubtful", sentence: "3.4 Mb/s of 4.0 Mb/s are used; with the questions' picture at 720p30 nothing is left over." },
  };
}

/** A loudspeaker that the lapel microphone hears, and a telephone that joined with its sound on. */
export function echoing(): Flow {
  const flow = association();
  return {
    ...flow,
    item: undefined,
    bands: flow.bands.map((each) => (each.way === "room-hears-online"
      ? { ...each, verdict: "doubtful" as const, sentence: "The people online are heard, but they hear themselves come back." } : each)),
    echoes: [
      run("the people online hear themselves by box and lapel", [
        hop("online", "call", "call"), hop("call", "laptop", "call"), hop("laptop", "box", "radio"), hop("box", "lapel", "air"),
        hop("lapel", "laptop", "cable"), hop("laptop", "call", "call"), hop("call", "online", "call"),
      ], 3),
      run("the people online hear themselves by phone", [
        hop("online", "call", "call"), hop("call", "laptop", "call"), hop("laptop", "box", "radio"), hop("box", "phone", "air"),
        hop("phone", "call", "call"), hop("call", "online", "call"),
      ], 3),
    ],
  };
}

/** Sixty devices: twelve microphones of a kind on a desk, five others, monitors, cameras on a switcher, screens in the aisles. */
export function sixty(): Flow {
  const posts: Post[] = [post("nave", "room-people", "180 seats"), post("choir", "room-people", "32 singers"), post("preacher", "room-people", "talker")];
  const device = (id: string, detail: string): void => void posts.push(post(id, "device", detail));
  const toOnline = [hop("laptop", "call", "call"), hop("call", "online", "call")];
  const toLaptop = [hop("online", "call", "call"), hop("call", "laptop", "call")];
  const hears: Run[] = [];
  const heard: Run[] = [];
  const sees: Run[] = [];
  const seen: Run[] = [];
  device("laptop", "laptop");
  device("desk", "mixing desk");
  device("interface", "sound interface");
  device("switcher", "video switcher");
  device("splitter", "picture splitter");
  for (let index = 1; index <= 12; index += 1) {
    device(`mic-${index}`, "gooseneck microphone");
    heard.push(run(`choir by mic-${index}`, [
      hop("choir", `mic-${index}`, "air", { remark: "0.8 m" }), hop(`mic-${index}.plug`, `desk.in-${index}`, "cable"),
      hop("desk.aux-1", "interface.in-1", "cable"), hop("interface.usb", "laptop.usb-2", "cable"), ...toOnline,
    ]));
  }
  for (const [id, detail, port] of [["pulpit", "condenser microphone", "in-13"], ["hand", "radio microphone", "in-14"], ["altar", "boundary microphone", "in-15"]] as const) {
    device(id, detail);
    heard.push(run(`preacher by ${id}`, [
      hop("preacher", id, "air"), hop(`${id}.out`, `desk.${port}`, id === "hand" ? "radio" : "cable", id === "altar" ? { gap: "no cable" } : {}),
      hop("desk.aux-1", "interface.in-1", "cable"), hop("interface.usb", "laptop.usb-2", "cable"), ...toOnline,
    ]));
  }
  for (let index = 1; index <= 10; index += 1) {
    device(`speaker-${index}`, "column loudspeaker");
    hears.push(run(`people online by speaker-${index}`, [
      ...toLaptop, hop("laptop.usb-2", "interface.usb", "cable"), hop("interface.out-1", "desk.in-16", "cable"), hop("desk.main", `speaker-${index}.in`, "cable", { remark: `${index * 4} m` }),
      hop(`speaker-${index}`, "nave", "air"),
    ]));
  }
  for (let index = 1; index <= 4; index += 1) {
    device(`camera-${index}`, index < 4 ? "still camera" : "old camcorder");
    seen.push(run(`camera-${index}`, [
      hop(index === 2 ? "choir" : index === 3 ? "nave" : "preacher", `camera-${index}`, "sight"), hop(`camera-${index}.hdmi`, `switcher.in-${index}`, "cable", index === 4 ? { gap: "plug does not fit" } : { remark: "15 m" }),
      hop("switcher.usb", "laptop.usb-1", "cable"), ...toOnline,
    ]));
  }
  for (let index = 1; index <= 8; index += 1) {
    device(`screen-${index}`, "aisle screen");
    sees.push(run(`people online on screen-${index}`, [
      ...toLaptop, hop("laptop.hdmi", "splitter.in", "cable"), hop(`splitter.out-${index}`, `screen-${index}.hdmi`, "cable"), hop(`screen-${index}`, "nave", "sight"),
    ]));
  }
  for (let index = 1; index <= 18; index += 1) device(`spare-${index}`, index % 2 === 0 ? "spare cable drum" : "spare stand");
  posts.push(call, online);
  return {
    title: "Harvest service in the old abbey church",
    posts,
    bands: [
      band("room-hears-online", "works", "Ten loudspeakers along the nave carry the people online to every seat.", hears),
      band("online-hears-room", "doubtful", "altar is not connected; the other microphones cover preacher and choir.", heard),
      band("room-sees-online", "works", "Eight screens in the aisles; the farthest seat is 6 m from one.", sees),
      band("online-sees-room", "doubtful", "camera-4 cannot be plugged into the switcher.", seen),
    ],
    echoes: [],
    call: { verdict: "works", sentence: "One laptop joins, with sound and picture." },
    internet: { verdict: "works", sentence: "3.1 Mb/s of 20 Mb/s." },
  };
}

/** Names that try to break out, turn the text round, or never end; more posts and runs than anybody could draw. */
export function hostile(count = 10_000): Flow {
  const nasty = [
    "</text><script>alert(1)</script>", "a & b < c > d \"e\" 'f'", "]]><!-- x -->", "\u0000\u0001\u001b[31mred", "\u202Egnirts desrever\u202C", "x".repeat(5000),
    "z\u0301\u0302\u0303\u0304\u0305\u0306\u0307\u0308", "\uD800 half a pair", "会議室のマイク", "מיקרופון", "🎤🎤🎤", "", "   ", "&#0;", "&amp;",
    "very long words that go on and on without any point in doing so ".repeat(20),
  ];
  const posts: Post[] = [post("people", "room-people", nasty[0], { name: nasty[1] ?? "" }), post("call", "call", nasty[3]), post("far", "online-people", nasty[4], { name: nasty[5] ?? "" })];
  const runs: Run[] = [];
  for (let index = 0; index < count; index += 1) {
    const id = `p${index} ${nasty[index % nasty.length] ?? ""}`;
    posts.push({ id, name: `${nasty[index % nasty.length] ?? ""}${index % 2 === 0 ? "" : String.fromCharCode(97 + (index % 26))}`, role: "device", detail: nasty[(index + 3) % nasty.length], trouble: index % 7 === 0 ? nasty[(index + 5) % nasty.length] : undefined });
    const name = nasty[(index + 1) % nasty.length];
    runs.push({
      id: `${index}${name ?? ""}`, title: name ?? "", complete: index % 3 !== 0,
      hops: [
        { from: "people", to: id, via: "air", toPort: name, remark: nasty[(index + 2) % nasty.length] },
        { from: id, to: "call", via: "call", fromPort: name, gap: index % 3 === 0 ? `gap ${nasty[(index + 4) % nasty.length] ?? ""}` : undefined, where: { path: nasty[0] ?? "", start: index, end: index + 1 } },
        { from: "call", to: "far", via: "call" },
      ],
    });
  }
  return {
    title: `${nasty[0] ?? ""} ${nasty[5] ?? ""}`,
    item: nasty[4],
    posts,
    bands: [band("online-hears-room", "fails", nasty[15] ?? "", runs), band("room-hears-online", "works", nasty[0] ?? "", [])],
    echoes: [{ id: "e", title: nasty[15] ?? "", complete: true, hops: [{ from: "far", to: "call", via: "call" }, { from: "call", to: "people", via: "air" }, { from: "people", to: "call", via: "air" }, { from: "call", to: "far", via: "call" }], turnsAt: 1 }],
    call: { verdict: "fails", sentence: nasty[15] ?? "" },
    internet: { verdict: "works", sentence: nasty[2] ?? "" },
  };
}

export function empty(): Flow {
  return {
    title: "Nothing yet", bands: [], posts: [], echoes: [],
    call: { verdict: "cannot-tell", sentence: "No device joins the call." },
    internet: { verdict: "cannot-tell", sentence: "Nothing is said about the internet." },
  };
}
