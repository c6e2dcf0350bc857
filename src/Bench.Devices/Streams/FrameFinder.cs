namespace Bench.Devices.Streams;

/// <summary>
/// Finds frames in bytes that may begin anywhere and hold noise. Where a frame's check is wrong it looks for the next one a
/// byte further on, so that a sync in the middle of another frame costs one frame at most. Allocates nothing.
/// </summary>
/// <remarks>
/// Without a check, one that does not follow another is taken only when the next sync stands a frame's length behind it, with the next
/// counter. A byte that is lost is then seen a frame later only.
/// </remarks>
public sealed class FrameFinder
{
    private readonly FrameLayout _layout;
    private readonly byte[] _bytes;
    private int _first;
    private int _end;
    private bool _follows;

    /// <summary>Makes a finder.</summary>
    public FrameFinder(FrameLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        _layout = layout;
        _bytes = new byte[Math.Max(4096, 8 * layout.Length)];
    }

    /// <summary>Frames whose sync was where one was due and whose check was wrong, and stretches of bytes that held no frame.</summary>
    public long Damaged { get; private set; }

    /// <summary>Where the next bytes go; never empty after <see cref="TryTake"/> has said there is no more.</summary>
    public Memory<byte> Room => _bytes.AsMemory(_end);

    /// <summary>Says how many bytes were put into <see cref="Room"/>.</summary>
    public void Put(int count) => _end += count;

    /// <summary>Takes the next whole frame.</summary>
    /// <param name="frame">The frame; good until the next call.</param>
    public bool TryTake(out ReadOnlySpan<byte> frame)
    {
        while (_end - _first >= _layout.Length)
        {
            ReadOnlySpan<byte> there = _bytes.AsSpan(_first, _end - _first);
            if (!there.StartsWith(_layout.Sync))
            {
                Miss(there);
                continue;
            }

            if (!_layout.IsChecked && !_follows)
            {
                if (there.Length < 2 * _layout.Length)
                {
                    break;
                }

                ReadOnlySpan<byte> next = there[_layout.Length..];
                if (!next.StartsWith(_layout.Sync) || !_layout.Follows(_layout.Sequence(next), _layout.Sequence(there)))
                {
                    Skip(1);
                    continue;
                }
            }

            if (_layout.IsWhole(there[.._layout.Length]))
            {
                frame = there[.._layout.Length];
                _first += _layout.Length;
                _follows = true;
                return true;
            }

            Skip(1);
        }

        _bytes.AsSpan(_first, _end - _first).CopyTo(_bytes);
        (_first, _end) = (0, _end - _first);
        frame = default;
        return false;
    }

    private void Miss(ReadOnlySpan<byte> there)
    {
        int next = there[1..].IndexOf(_layout.Sync[0]);
        Skip(next < 0 ? there.Length : next + 1);
    }

    // Damage is counted where it begins; what is skipped until the next frame belongs to it.
    private void Skip(int count)
    {
        if (_follows)
        {
            Damaged++;
        }

        _follows = false;
        _first += count;
    }
}
