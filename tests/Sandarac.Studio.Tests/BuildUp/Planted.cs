using Sandarac.Studio.BuildUp;

namespace Sandarac.Studio.Tests.BuildUp;

/// <summary>Twenty build-ups side by side with one wrong relation in each: 1,000 stages and 5,000 relations.</summary>
internal static class Planted
{
    public static (List<BuildUpStage> Stages, List<BuildUpRelation> Relations, List<BuildUpRelation> Wrong) Make(int seed)
    {
        var random = new Random(seed);
        List<BuildUpStage> stages = [.. Enumerable.Range(0, 1000).Select(i => new BuildUpStage(Guid.CreateVersion7(), $"stage {i}", StageKind.Paint))];
        List<BuildUpRelation> relations = [], wrong = [];
        for (var part = 0; part < 20; part++)
        {
            var first = 50 * part;
            while (relations.Count < 250 * part + 249)
            {
                var (a, b) = (first + random.Next(50), first + random.Next(50));
                if (a == b) continue;
                // The stage with the greater number lies higher.
                relations.Add(new BuildUpRelation(Guid.NewGuid(), stages[a].Id, a > b ? RelationKind.Over : RelationKind.Under, stages[b].Id, "seen"));
            }
            var (low, high) = (first + random.Next(10), first + 40 + random.Next(10));
            wrong.Add(new BuildUpRelation(Guid.NewGuid(), stages[low].Id, RelationKind.Over, stages[high].Id, "a slip"));
            relations.Add(wrong[^1]);
        }
        return (stages, relations, wrong);
    }
}
