using Sandarac.Materials.Solvents;
using Sandarac.Studio.Record;

namespace Sandarac.Studio.Cleaning;

/// <summary>A test with its agent as a mixture of solvents of the table.</summary>
/// <param name="Test">The test.</param>
/// <param name="Mixture">The mixture; null when the agent is none, or has a part that the table does not know.</param>
public sealed record TestedAgent(CleaningTest Test, Mixture? Mixture)
{
    /// <summary>Its place in the Teas triangle; null when it has none.</summary>
    public TeasFractions? Teas => Mixture?.Teas.Value;

    /// <summary>Its place in Hansen space; null when it has none.</summary>
    public HansenParameters? Hansen => Mixture?.Hansen.Value;

    /// <summary>Reads a test's agent.</summary>
    public static TestedAgent Of(CleaningTest test)
    {
        var parts = test.Content.Agent.Select(p => (Solvent: SolventTable.Find(p.Name), p.Percent)).ToList();
        var isMixture = test.Content.AgentKind == AgentKind.Solvent && parts.All(p => p.Solvent is not null) && parts.Select(p => p.Solvent).Distinct().Count() == parts.Count;
        return new TestedAgent(test, isMixture ? Mixture.Of(parts.Select(p => (p.Solvent!, p.Percent))) : null);
    }
}
