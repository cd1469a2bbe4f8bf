using System.Diagnostics;
using System.Globalization;

namespace Sandarac.Studio.Storage;

/// <summary>A process on a machine, told apart from a later one that was given the same number by its start time.</summary>
/// <param name="Machine">Name of the machine.</param>
/// <param name="ProcessId">Number of the process.</param>
/// <param name="StartedAt">When it started, seconds.</param>
internal sealed record Owner(string Machine, int ProcessId, long StartedAt)
{
    /// <summary>Seconds. Linux gives start times as ticks since a boot time that two processes may round differently.</summary>
    private const long StartTolerance = 3;

    public static Owner This { get; } = Of(Process.GetCurrentProcess());

    /// <summary>Usable in a file's name.</summary>
    public string FileStem => string.Create(CultureInfo.InvariantCulture, $"{ProcessId}.{StartedAt}");

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{ProcessId}.{StartedAt}@{Machine}");

    public static Owner? Parse(string text)
    {
        var parts = text.Split('@', 2);
        var numbers = parts[0].Split('.');
        return parts.Length == 2 && numbers.Length == 2
            && int.TryParse(numbers[0], CultureInfo.InvariantCulture, out var id) && long.TryParse(numbers[1], CultureInfo.InvariantCulture, out var ticks)
            ? new Owner(parts[1], id, ticks) : null;
    }

    /// <summary>Whether it has ended for certain. Nothing can be said of another machine's processes: those count as alive.</summary>
    public bool IsDead
    {
        get
        {
            if (Machine != Environment.MachineName) return false;
            try
            {
                using var process = Process.GetProcessById(ProcessId);
                return process.HasExited || Math.Abs(Of(process).StartedAt - StartedAt) > StartTolerance;
            }
            catch (ArgumentException)
            {
                return true;
            }
        }
    }

    private static Owner Of(Process process) => new(Environment.MachineName, process.Id, process.StartTime.ToUniversalTime().Ticks / TimeSpan.TicksPerSecond);
}
