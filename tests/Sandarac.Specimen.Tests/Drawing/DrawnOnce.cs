namespace Sandarac.Specimen.Tests.Drawing;

/// <summary>The tests that look at one drawn specimen share it.</summary>
[CollectionDefinition(nameof(DrawnOnce))]
public sealed class DrawnOnce : ICollectionFixture<DrawnSpecimen>;
