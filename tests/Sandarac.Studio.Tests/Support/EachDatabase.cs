using System.Reflection;
using Xunit.Sdk;
using Xunit.v3;

namespace Sandarac.Studio.Tests.Support;

/// <summary>Runs a test on each kind of database.</summary>
public sealed class EachDatabaseAttribute : DataAttribute
{
    public override ValueTask<IReadOnlyCollection<ITheoryDataRow>> GetData(MethodInfo testMethod, DisposalTracker disposalTracker) =>
        new([.. Enum.GetValues<Database>().Select(d => new TheoryDataRow(d))]);

    public override bool SupportsDiscoveryEnumeration() => true;
}
