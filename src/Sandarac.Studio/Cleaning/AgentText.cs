using System.Globalization;
using Sandarac.Imaging;
using Sandarac.Materials.Solvents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>Agents as people write them: "ethanol 20 + isooctane 80", "deionised water".</summary>
public static class AgentText
{
    /// <summary>"ethanol 20 + isooctane 80"; a single one without its 100.</summary>
    public static string Of(IReadOnlyList<AgentPart> parts) => parts is [{ Percent: 100 } only] ? only.Name : string.Join(" + ", parts.Select(p => string.Create(CultureInfo.InvariantCulture, $"{p.Name} {p.Percent:0.##}")));

    /// <summary>Reads parts: names with percent by volume between plus signs; a single one may go without.</summary>
    /// <exception cref="InputProblem">A part of several has no share ("agent-share"); there is none at all ("agent").</exception>
    public static IReadOnlyList<AgentPart> Read(string text)
    {
        var parts = WrittenPart.In(text);
        if (parts.Count == 0) throw new InputProblem("agent", "agent", "The agent has no name.", "Write it: \"isooctane\", or \"ethanol 20 + isooctane 80\" with percent by volume.");
        return [.. parts.Select(p => new AgentPart(p.Name, p.Percent ?? (parts.Count == 1 ? 100 : throw NoShare(p.Name))))];
    }

    private static InputProblem NoShare(string name) => new("agent-share", "agent", $"\"{name}\" has no share.", "Write percent by volume behind each part: \"ethanol 20 + isooctane 80\".");
}
