// The core as WebAssembly: text in, text out. It knows of no page, so that node runs it too.

interface Core {
    memory: WebAssembly.Memory;
    _initialize(): void;
    malloc(size: number): number;
    free(at: number): void;
    halfnut_ask(json: number): number;
    halfnut_free(answer: number): void;
}

/** The bytes of a text in base64. A loop: it takes a quarter of the time of Uint8Array.from. */
function bytesOf(base64: string): Uint8Array {
    const text = atob(base64);
    const out = new Uint8Array(text.length);
    for (let at = 0; at < text.length; ++at) {
        out[at] = text.charCodeAt(at);
    }
    return out;
}

/** The core's module asks its host for nothing that a page has: what it writes goes nowhere, time stands still. */
function host(memory: () => WebAssembly.Memory): WebAssembly.Imports {
    const done = (): number => 0;
    const bad = (): number => 8;
    const write = (_file: number, parts: number, count: number, written: number): number => {
        const view = new DataView(memory().buffer);
        let size = 0;
        for (let part = 0; part < count; ++part) {
            size += view.getUint32(parts + 8 * part + 4, true);
        }
        view.setUint32(written, size, true);
        return 0;
    };
    const none = (count: number, size: number): number => {
        const view = new DataView(memory().buffer);
        view.setUint32(count, 0, true);
        view.setUint32(size, 0, true);
        return 0;
    };
    const stop = (): never => {
        throw new Error("the core stopped");
    };
    return {
        env: { emscripten_notify_memory_growth: done },
        wasi_snapshot_preview1: {
            environ_get: done,
            environ_sizes_get: none,
            fd_close: bad,
            fd_read: bad,
            fd_seek: bad,
            fd_write: write,
            proc_exit: stop,
        },
    };
}

class Halfnut {
    private constructor(private readonly core: Core) {}

    static async load(bytes: BufferSource): Promise<Halfnut> {
        let core: Core | undefined;
        const made = await WebAssembly.instantiate(bytes, host(() => core!.memory));
        core = made.instance.exports as unknown as Core;
        core._initialize();
        return new Halfnut(core);
    }

    private text(at: number): string {
        const memory = new Uint8Array(this.core.memory.buffer);
        return new TextDecoder().decode(memory.subarray(at, memory.indexOf(0, at)));
    }

    /** JSON in, JSON out. */
    ask(json: string): string {
        const bytes = new TextEncoder().encode(json);
        const at = this.core.malloc(bytes.length + 1);
        const memory = new Uint8Array(this.core.memory.buffer);
        memory.set(bytes, at);
        memory[at + bytes.length] = 0;
        const answer = this.core.halfnut_ask(at);
        this.core.free(at);
        const out = this.text(answer);
        this.core.halfnut_free(answer);
        return out;
    }
}
