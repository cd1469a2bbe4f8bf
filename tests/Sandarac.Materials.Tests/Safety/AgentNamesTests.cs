using Sandarac.Materials.Safety;
using Sandarac.Materials.Solvents;

namespace Sandarac.Materials.Tests.Safety;

public sealed class AgentNamesTests
{
    [Theory]
    [InlineData("isooctane + ethanol 80:20", "isooctane|ethanol")]
    [InlineData("Acetone", "acetone")]
    [InlineData("ethanol 20 % + white wine 80 %", "ethanol|white wine")]
    [InlineData("cotton swabs; acetone/acetone 5", "cotton swabs|acetone")]
    [InlineData("20:80", "")]
    [InlineData(" ", "")]
    public void Names_are_found_in_what_people_write(string text, string names) => Assert.Equal(names, string.Join('|', AgentNames.In(text)));

    [Fact]
    public void Every_name_of_the_table_is_found_as_it_stands() => Assert.All(SolventTable.All, s => Assert.Equal([s.Name], AgentNames.In(s.Name)));
}
