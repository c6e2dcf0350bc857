using Bench.Model.Instruments;

namespace Bench.Running.Moves;

/// <summary>
/// A tour over every ordered pair of ports, in every direction the drive allows, each once, that ends where it began:
/// an Eulerian circuit (Hierholzer, 1873), so no move is spent on getting to the next pair's start.
/// </summary>
internal static class PortTour
{
    /// <summary>Port indices and directions of the moves, in order, beginning at port 0.</summary>
    public static IReadOnlyList<(int To, DriveDirection Direction)> Make(int ports, bool canReverse)
    {
        // Edges still to be travelled, per port; the last one is taken first.
        List<(int To, DriveDirection Direction)>[] left = new List<(int, DriveDirection)>[ports];
        for (int from = 0; from < ports; from++)
        {
            left[from] = [];
            for (int to = ports - 1; to >= 0; to--)
            {
                if (to == from)
                {
                    continue;
                }

                if (canReverse)
                {
                    left[from].Add((to, DriveDirection.Down));
                }

                left[from].Add((to, DriveDirection.Up));
            }
        }

        Stack<(int Port, DriveDirection Direction)> open = new([(0, DriveDirection.Up)]);
        List<(int, DriveDirection)> circuit = [];
        while (open.TryPeek(out (int Port, DriveDirection Direction) here))
        {
            if (left[here.Port].Count > 0)
            {
                (int To, DriveDirection Direction) next = left[here.Port][^1];
                left[here.Port].RemoveAt(left[here.Port].Count - 1);
                open.Push((next.To, next.Direction));
            }
            else
            {
                circuit.Add(open.Pop());
            }
        }

        circuit.Reverse();
        circuit.RemoveAt(0);
        return circuit;
    }
}
