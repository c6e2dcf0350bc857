namespace Bench.SystemTests.Programs;

/// <summary>The <c>bench</c> of this build at a terminal of its own (Python's pty), with a person who types.</summary>
internal static class TypedProgram
{
    /// <summary>Starts it; its output is what the terminal showed, its exit code the program's.</summary>
    /// <param name="keys">Lines as Python writes them, "no\\n" or "\\x03": one after each question, so that nothing is typed ahead of it.</param>
    /// <param name="arguments">The verb and its options.</param>
    public static RunningProgram Start(string keys, params string[] arguments) => RunningProgram.Start("python3",
    [
        "-c",
        $$"""
        import os, pty, sys
        child, terminal = pty.fork()
        if child == 0:
            os.environ["NO_COLOR"] = "1"
            os.execv(sys.argv[1], sys.argv[1:])
        keys = "{{keys}}".splitlines(keepends=True)
        seen = b""
        asked = 0
        while True:
            try:
                some = os.read(terminal, 4096)
            except OSError:
                break
            if not some:
                break
            seen += some
            if seen.rstrip(b" ") != seen and seen.rstrip().endswith(b":") and len(seen) > asked and keys:
                asked = len(seen)
                os.write(terminal, keys.pop(0).encode())
        sys.stdout.write(seen.decode("utf-8", "replace"))
        sys.stdout.flush()
        sys.exit(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) % 256)
        """,
        BenchProgram.Path, .. arguments,
    ]);
}
