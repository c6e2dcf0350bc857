namespace Bench.Simulation.Time;

/// <summary>A binary heap of timers by due time, then by the order in which they were set; any of them can be removed.</summary>
internal sealed class TimerHeap
{
    private VirtualTimer[] _items = new VirtualTimer[16];

    internal int Count { get; private set; }

    internal void Add(VirtualTimer timer)
    {
        if (Count == _items.Length)
        {
            Array.Resize(ref _items, 2 * Count);
        }

        Up(Count++, timer);
    }

    internal VirtualTimer TakeFirst()
    {
        VirtualTimer first = _items[0];
        Remove(first);
        return first;
    }

    internal void Remove(VirtualTimer timer)
    {
        int slot = timer.Slot;
        if (slot < 0)
        {
            return;
        }

        timer.Slot = -1;
        VirtualTimer last = _items[--Count];
        _items[Count] = null!;
        if (slot == Count)
        {
            return;
        }

        if (slot > 0 && Before(last, _items[(slot - 1) / 2]))
        {
            Up(slot, last);
        }
        else
        {
            Down(slot, last);
        }
    }

    private static bool Before(VirtualTimer a, VirtualTimer b) =>
        a.Due != b.Due ? a.Due < b.Due : a.Order < b.Order;

    private void Up(int slot, VirtualTimer timer)
    {
        while (slot > 0)
        {
            int parent = (slot - 1) / 2;
            if (!Before(timer, _items[parent]))
            {
                break;
            }

            Put(slot, _items[parent]);
            slot = parent;
        }

        Put(slot, timer);
    }

    private void Down(int slot, VirtualTimer timer)
    {
        while ((2 * slot) + 1 < Count)
        {
            int child = (2 * slot) + 1;
            if (child + 1 < Count && Before(_items[child + 1], _items[child]))
            {
                child++;
            }

            if (!Before(_items[child], timer))
            {
                break;
            }

            Put(slot, _items[child]);
            slot = child;
        }

        Put(slot, timer);
    }

    private void Put(int slot, VirtualTimer timer)
    {
        _items[slot] = timer;
        timer.Slot = slot;
    }
}
