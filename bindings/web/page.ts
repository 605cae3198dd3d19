// The phone page: forms made of what the core declares, answers in the core's own words. No request leaves it.

interface Shape {
    description: string;
    type?: string | string[];
    enum?: string[];
    default?: string | boolean;
    examples?: string[];
    unit?: string;
    dimension?: string;
    of?: string;
    kin?: string;
    finer?: boolean;
}
interface Schema {
    title: string;
    description: string;
    room: string;
    properties: { values: { properties: Record<string, Shape>; allOf?: { anyOf: { required: string[] }[] }[] } };
}
interface Row {
    key: string;
    about: string;
    text?: string;
    rows?: Row[][];
}
interface Caution {
    code: string;
    rank: "danger" | "caution" | "note";
    text: string;
}
interface Evidence {
    figure: string;
    rule: string;
    row: string;
    source: string;
    kind: string;
}
interface Answer {
    said: Row[];
    leads: string[];
    cautions: Caution[];
    evidence: Evidence[];
    error?: { code: string; message: string; nearest?: string; argument?: string };
}
interface Machine {
    title: string;
    machine: object;
}
interface Shop {
    version: string;
    made: string;
    machines: Machine[];
    wheels: object[];
    tables: object[];
    /** Those of a plan, in files beside this one. */
    cards?: { title: string; file: string }[];
}
type Values = Record<string, string | boolean>;

// what the compiler's own list of a browser's functions lacks
interface Navigator {
    readonly wakeLock?: { request(type: "screen"): Promise<unknown> };
}
declare class DecompressionStream {
    constructor(format: "gzip");
    readonly readable: ReadableStream<Uint8Array>;
    readonly writable: WritableStream<Uint8Array>;
}

// ---- what is remembered -------------------------------------------------------------------------------------

const kStore = "halfnut";

/** Values by question; those that every question shares, by the name of the argument; machines that came in files. */
interface Kept {
    question: string;
    shared: Values;
    own: Record<string, Values>;
    machines: Machine[];
}

function recall(): Kept {
    try {
        const kept = JSON.parse(localStorage.getItem(kStore) ?? "{}") as Partial<Kept>;
        return {
            question: kept.question ?? "", shared: kept.shared ?? {}, own: kept.own ?? {}, machines: kept.machines ?? [],
        };
    } catch {
        return { question: "", shared: {}, own: {}, machines: [] };
    }
}

/** Whether it could be kept. */
function keep(kept: Kept): boolean {
    try {
        localStorage.setItem(kStore, JSON.stringify(kept));
        return true;
    } catch {
        return false;
    }
}

// ---- the page -----------------------------------------------------------------------------------------------

const kWheels = "KnurlWheels"; // the shop's stand in the page
const kShared = ["alloy", "tool", "machine"]; // the same in every question
const kFirst = ["turn", "face", "bore", "drill", "part_off", "tap", "ream", "knurl", "mill"];
/** What is measured or given before all else, though none of it must be: it stands ahead, not behind "More to say". */
const kAhead: Record<string, string[]> = { judge: ["over_wires", "wire", "pitch", "major", "minor"] };
/** Views of their own, each a touch away. */
const kViews: [string, string][] = [["turn", "Spindle and feed"], ["judge", "Measured thread"]];
const kRooms: Record<string, string> = {
    cutting: "Spindle and feed",
    threads: "Threads and coatings",
    knurls: "Knurls",
    fits: "Plain fits and tapers",
    material: "Alloys",
    machine: "Machine",
};

const spoken = (name: string): string => {
    const words = name.replace(/_/g, " ");
    return words.charAt(0).toUpperCase() + words.slice(1);
};

function element<Tag extends keyof HTMLElementTagNameMap>(
    tag: Tag, properties: Partial<HTMLElementTagNameMap[Tag]> = {}, ...inside: (Node | string)[]
): HTMLElementTagNameMap[Tag] {
    const out = Object.assign(document.createElement(tag), properties);
    out.append(...inside);
    return out;
}

/** Whether a value of this kind may be given. */
function takes(shape: Shape, kind: string): boolean {
    return shape.type === kind || (Array.isArray(shape.type) && shape.type.includes(kind));
}
function isLength(shape: Shape): boolean {
    return shape.dimension === "length" || shape.dimension === "feed";
}

class Page {
    private readonly kept = recall();
    private readonly schemas: Schema[];
    private readonly work = document.getElementById("work") as HTMLSelectElement;
    private readonly form = document.getElementById("form") as HTMLFormElement;
    private readonly answer = document.getElementById("answer") as HTMLElement;
    private schema: Schema;

    constructor(private readonly core: Halfnut, private readonly shop: Shop) {
        this.schemas = (JSON.parse(this.reply({ question: "questions" })) as { oneOf: Schema[] }).oneOf;
        this.schema = this.schemas[0]!;
        this.offer();
        this.cards();
        this.machineFiles();
        this.show(this.kept.question || kFirst[0]!);
        this.work.addEventListener("change", () => this.show(this.work.value));
        this.form.addEventListener("submit", (event) => event.preventDefault());
        document.getElementById("about")!.textContent =
            `Halfnut ${shop.version}, made ${shop.made}. Figures to begin from: the machine's manual, its guards and ` +
            "local rules come first.";
    }

    /** The core's reply, the shop's tables laid over its own. */
    private reply(asked: object): string {
        return this.core.ask(JSON.stringify({ ...asked, tables: this.shop.tables }));
    }

    /** Every question, a room at a time, what the lathe asks for most ahead. */
    private offer(): void {
        const rooms = [...new Set([...Object.keys(kRooms), ...this.schemas.map((schema) => schema.room)])];
        const place = (name: string): number => (kFirst.includes(name) ? kFirst.indexOf(name) : kFirst.length);
        for (const room of rooms) {
            const own = this.schemas.filter((schema) => schema.room === room);
            own.sort((a, b) => place(a.title) - place(b.title));
            if (own.length > 0) {
                const names = own.map((schema) => element("option", { value: schema.title }, spoken(schema.title)));
                this.work.append(element("optgroup", { label: kRooms[room] ?? spoken(room) }, ...names));
            }
        }
    }

    /** Views ahead of all questions: the cut asked last, a thread that was measured. */
    private views(): void {
        const buttons = kViews.map(([name, said]) => {
            const isHere = name === "judge" ? this.schema.title === "judge" : this.schema.room === "cutting";
            const button = element("button", { type: "button" }, said);
            button.setAttribute("aria-pressed", String(isHere));
            button.addEventListener("click", () => this.show(name));
            return button;
        });
        document.getElementById("views")!.replaceChildren(...buttons);
    }

    /** The cards of a plan that lie beside the page, before the questions. */
    private cards(): void {
        const links = (this.shop.cards ?? []).map((card) => element("a", { href: card.file }, card.title));
        if (links.length > 0) {
            const list = element("details", { className: "cards" }, element("summary", {}, "Cards of the plan"), ...links);
            document.getElementById("views")!.after(list);
        }
    }

    /** Machines out of files, as `halfnut machine show NAME --json` prints them; one that the core refuses is told. */
    private machineFiles(): void {
        const files = document.getElementById("machines") as HTMLInputElement;
        const told = document.getElementById("machines-told")!;
        files.addEventListener("change", async () => {
            const lines: string[] = [];
            for (const file of files.files ?? []) {
                try {
                    const machine = JSON.parse(await file.text()) as { name?: unknown };
                    const title = typeof machine.name === "string" && machine.name ? machine.name : file.name;
                    const asked = { question: "turn", values: { alloy: "6061 T6", diameter: "25 mm", machine }, say: false };
                    const found = JSON.parse(this.reply(asked)) as Answer;
                    if (found.error?.code === "input" || found.error?.message.startsWith("machine: ")) {
                        throw new Error(found.error.message);
                    }
                    this.kept.machines = [...this.kept.machines.filter((each) => each.title !== title), { title, machine }];
                    this.kept.shared["machine"] = title;
                    lines.push(`${title}: read`);
                } catch (error) {
                    lines.push(`${file.name}: ${error instanceof Error ? error.message : String(error)}`);
                }
            }
            told.replaceChildren(...lines.map((line) => element("span", {}, line)));
            this.show(this.schema.title);
        });
    }

    private show(name: string): void {
        this.schema = this.schemas.find((schema) => schema.title === name) ?? this.schemas[0]!;
        this.work.value = this.schema.title;
        this.kept.question = this.schema.title;
        this.views();
        const first = kAhead[this.schema.title] ?? [];
        const required = new Set((this.schema.properties.values.allOf ?? []).map((each) => each.anyOf[0]!.required[0]!));
        const ahead: HTMLElement[] = [];
        const behind: HTMLElement[] = [];
        for (const [key, shape] of Object.entries(this.schema.properties.values.properties)) {
            if (shape.of === undefined) {
                const isAhead = required.has(key) || kShared.includes(key) || first.includes(key);
                (isAhead ? ahead : behind).push(this.field(key, shape, required.has(key)));
            }
        }
        // sizes before names: those that are remembered need no touch
        const after = (each: HTMLElement): number => Number(each.dataset["shared"] !== undefined);
        ahead.sort((a, b) => after(a) - after(b));
        this.form.replaceChildren(element("p", { className: "what" }, this.schema.description), ...ahead);
        if (behind.length > 0) {
            this.form.append(element("details", {}, element("summary", {}, "More to say"), ...behind));
        }
        this.ask();
    }

    private values(): Values {
        return (this.kept.own[this.schema.title] ??= {});
    }
    private value(key: string): string | boolean | undefined {
        return kShared.includes(key) ? this.kept.shared[key] : this.values()[key];
    }
    private set(key: string, value: string | boolean): void {
        (kShared.includes(key) ? this.kept.shared : this.values())[key] = value;
        this.ask();
    }

    /** A label, the control that suits the argument, and its sentence. */
    private field(key: string, shape: Shape, required: boolean): HTMLElement {
        const id = `asked-${key}`;
        const about = element("p", { id: `${id}-about`, className: "said" }, shape.description);
        const label = element("label", { htmlFor: id }, spoken(key) + (required ? "" : " (may be left out)"));
        const control = this.control(key, shape);
        control.id = id;
        control.setAttribute("aria-describedby", about.id);
        const out = element("div", { className: shape.type === "boolean" ? "flag" : "field" }, label, control);
        if (control instanceof HTMLInputElement && isLength(shape)) {
            out.append(this.keys(control, shape));
        }
        out.append(about);
        if (kShared.includes(key)) {
            out.dataset["shared"] = "";
        }
        return out;
    }

    private control(key: string, shape: Shape): HTMLInputElement | HTMLSelectElement {
        const held = this.value(key);
        if (shape.type === "boolean") {
            const box = element("input", { type: "checkbox", checked: held === true });
            box.addEventListener("change", () => this.set(key, box.checked));
            return box;
        }
        const isMachine = takes(shape, "object") && !takes(shape, "array");
        const isShops = shape.kin === kWheels;
        const names = isShops ? ["the shop's"] : isMachine ? this.machines() : shape.enum ?? [...(shape.examples ?? [])].sort();
        if (names.length > 0) {
            if (held === undefined && isMachine) {
                this.kept.shared[key] = names[0] ?? "";
            }
            const isSet = isMachine || isShops || (shape.enum !== undefined && shape.default !== undefined);
            const blank = isSet ? [] : [element("option", { value: "" }, "-")];
            const none = isMachine ? [element("option", { value: "" }, "no machine: exact speed and feed")] : [];
            const options = names.map((name) => element("option", { value: name }, name));
            const list = element("select", {}, ...blank, ...options, ...none);
            list.value = String(this.value(key) ?? shape.default ?? (isShops ? names[0] : ""));
            list.addEventListener("change", () => this.set(key, list.value));
            return list;
        }
        const isNumber = shape.dimension !== undefined || shape.unit !== undefined ||
            shape.type === "number" || shape.type === "integer";
        const box = element("input", {
            type: "text", value: typeof held === "string" ? held : "", inputMode: isNumber ? "decimal" : "text",
            autocomplete: "off", autocapitalize: "off", spellcheck: false,
            placeholder: isLength(shape) ? "" : shape.unit ?? "",
        });
        box.addEventListener("input", () => this.set(key, box.value));
        return box;
    }

    /** What the number keys of a phone lack: units and fractions. */
    private keys(box: HTMLInputElement, shape: Shape): HTMLElement {
        const out = element("div", { className: "keys" });
        const units = shape.dimension === "feed" ? ["in/rev", "mm/rev"] : ["in", "mm", "/", "-"];
        for (const text of units) {
            const said = text === "/" ? "fraction bar" : text === "-" ? "and a fraction" : text;
            const key = element("button", { type: "button", ariaLabel: said }, text);
            key.addEventListener("click", () => {
                const unit = /^[a-z]/.test(text);
                const number = unit ? box.value.replace(/\s*[a-z"/]*$/, "") : box.value;
                box.value = unit ? `${number} ${text}` : number + text;
                box.dispatchEvent(new Event("input"));
                if (!unit) {
                    box.focus();
                }
            });
            out.append(key);
        }
        return out;
    }

    /** Machines at hand, those from files first. */
    private machines(): string[] {
        return [...new Set([...this.kept.machines, ...this.shop.machines].map((each) => each.title))];
    }
    private machine(title: unknown): Machine | undefined {
        return [...this.kept.machines, ...this.shop.machines].find((each) => each.title === title);
    }

    private asked(): object {
        const values: Record<string, unknown> = {};
        for (const [key, shape] of Object.entries(this.schema.properties.values.properties)) {
            const held = shape.of === undefined ? this.value(key) : undefined;
            if (shape.kin === kWheels) {
                values[key] = this.shop.wheels;
                continue;
            }
            if (held === undefined || held === "" || held === false) {
                continue;
            }
            if (takes(shape, "array") && typeof held === "string") {
                values[key] = held.split(",").map((each) => each.trim());
            } else if (takes(shape, "object")) {
                values[key] = this.machine(held)?.machine;
            } else if ((shape.type === "number" || shape.type === "integer") && /^-?[\d.]+$/.test(String(held))) {
                values[key] = Number(held);
            } else {
                values[key] = held;
            }
        }
        return { question: this.schema.title, values, say: true };
    }

    private ask(): void {
        const isKept = keep(this.kept);
        const found = JSON.parse(this.reply(this.asked())) as Answer;
        const lines: HTMLElement[] = [];
        if (found.error !== undefined) {
            lines.push(element("p", { className: "lacking" }, found.error.message));
        } else {
            lines.push(...this.figures(found));
        }
        if (!isKept) {
            lines.push(element("p", { className: "note" }, "This device keeps nothing: what is set here is lost when the page closes."));
        }
        this.answer.replaceChildren(...lines);
    }

    /** Of a measured thread: where it lies, then of each diameter that was measured what is to come off. */
    private verdict(found: Answer): HTMLElement[] {
        const text = (rows: Row[], key: string): string => rows.find((row) => row.key === key)?.text ?? "";
        const out = [element("div", { className: "lead" }, element("b", {}, spoken(text(found.said, "place"))))];
        for (const row of found.said) {
            const judged = row.rows?.[0];
            if (judged === undefined || text(judged, "measured_mm") === "" || row.key === "classes") {
                continue;
            }
            const limits = `${text(judged, "min_mm")} to ${text(judged, "max_mm")}`;
            const lines = [`${row.about.replace(/\.$/, "")} ${text(judged, "measured_mm")}, good ${limits}: ${text(judged, "place")}.`];
            if (text(judged, "place") === "metal left") {
                const off = `${text(judged, "to_enter_mm")} to ${text(judged, "to_last_mm")}`;
                lines.push(`Take ${off} off the diameter, ${text(judged, "to_middle_mm")} for the middle.`);
            }
            out.push(...lines.map((line) => element("p", { className: "of" }, line)));
        }
        const classes = found.said.find((row) => row.key === "classes")?.rows ?? [];
        const met = classes.filter((each) => text(each, "met") === "yes").map((each) => text(each, "name"));
        out.push(element("p", {}, `${text(found.said, "thread")}; classes met: ${met.join(", ") || "none"}`));
        return out;
    }

    private leads(found: Answer): HTMLElement[] {
        const out: HTMLElement[] = [];
        const leads = found.leads.flatMap((key) => found.said.filter((row) => row.key === key));
        const shown = leads.length > 0 ? leads : found.said.filter((row) => /\d/.test(row.text ?? "")).slice(0, 4);
        for (const row of shown) {
            const text = row.text === undefined ? this.list(row.rows![0]!) : element("b", {}, row.text);
            const about = /^[a-z]/i.test(row.text ?? "") ? [] : [element("span", {}, row.about)]; // words speak for themselves
            out.push(element("div", { className: "lead" }, ...about, text));
        }
        return out;
    }

    private figures(found: Answer): HTMLElement[] {
        const out = this.schema.title === "judge" ? this.verdict(found) : this.leads(found);
        const of = [this.value("alloy"), this.value("tool"), this.value("machine")].filter((each) => each);
        const mine = Object.keys(this.schema.properties.values.properties);
        if (mine.includes("alloy")) {
            out.push(element("p", { className: "of" }, [spoken(this.schema.title), ...of].join(", ")));
        }
        for (const caution of found.cautions) {
            const label = caution.rank === "note" ? "Note" : caution.rank.toUpperCase();
            out.push(element("p", { className: caution.rank }, element("b", {}, `${label}: `), caution.text));
        }
        const rests = found.evidence.map((each) =>
            element("li", {}, `${spoken(each.figure)}: ${each.rule}${each.row ? `; ${each.row}` : ""}; ${each.source} (${each.kind})`));
        const why = element("details", {}, element("summary", {}, "Every figure"), this.list(found.said));
        why.append(element("details", {}, element("summary", {}, "What they rest on"), element("ul", {}, ...rests)));
        out.push(why);
        return out;
    }

    private list(rows: Row[]): HTMLElement {
        const out = element("dl");
        for (const row of rows) {
            const inner = (row.rows ?? []).map((each) => this.list(each));
            out.append(element("dt", {}, row.about), element("dd", {}, row.text ?? "", ...inner));
        }
        return out;
    }
}

// ---- begin --------------------------------------------------------------------------------------------------

/** The screen stays on while the page is looked at; where the device does not allow it, it is as it was. */
function stayOn(): void {
    const ask = (): void => {
        if (document.visibilityState === "visible") {
            navigator.wakeLock?.request("screen").catch(() => undefined);
        }
    };
    document.addEventListener("visibilitychange", ask);
    document.addEventListener("pointerdown", ask, { once: true });
    ask();
}

async function begin(): Promise<void> {
    const held = (id: string): string => document.getElementById(id)!.textContent!.trim();
    const packed = new Blob([bytesOf(held("core"))]).stream().pipeThrough(new DecompressionStream("gzip"));
    const core = await Halfnut.load(await new Response(packed).arrayBuffer());
    Object.assign(window, { halfnut: core });
    new Page(core, JSON.parse(held("shop")) as Shop);
    document.body.dataset["ready"] = "";
    stayOn();
}

begin().catch((error: unknown) => {
    document.getElementById("answer")!.textContent =
        `This browser cannot open the page: ${String(error)}. One from 2023 or later can.`;
});
