namespace Sandarac.Studio.Documents.Phrasing;

/// <summary>Every fixed text of the documents; what each says stands in Phrases.resx and, for other languages, Phrases.LANGUAGE.resx.</summary>
internal enum Phrase
{
    Contents, FigureNumber, TableNumber, PageOf, PageWord, OfWord, WarningSign, CautionSign, NameAndSignature, DateAndTime, NoPicture, PictureDamaged,
    LettersMissing, ScaleBarOf, DatePattern, TimePattern, KindFirst, KindExamination, KindCondition, KindProposal, KindTreatment, KindLoan, LightVis,
    LightRak, LightSpec, LightTrans, LightUvl, LightUvr, LightIr, LightIrr, LightIrt, LightXr, LightXsec, LightIrfc, LightUnknown, LampAtTop,
    LampAtUpperRight, LampAtRight, LampAtLowerRight, LampAtBottom, LampAtLowerLeft, LampAtLeft, LampAtUpperLeft, LampOnSide, LampAtDegrees,
    LampElevation, UnderLight, SubjectPainting, SubjectPlate, SubjectDetail, SubjectSampleNamed, SubjectSample, SubjectChart, SubjectFlatField,
    SubjectDarkFrame, SizeOf, SizeNotKnown, SizeSpread, OriginMeasured, OriginDistance, OriginRuler, OriginMetadata, OriginAssumed, RestsDistance,
    RestsRuler, RestsMetadata, RestsAssumed, VerdictAligned, VerdictUncertain, VerdictNotAligned, IdentityTitle, IdentityNumber, IdentityOwner,
    IdentityMaker, IdentityMarks, IdentityTechnique, IdentitySupport, IdentityDate, IdentityFace, IdentityPhotographs, IdentityPlaces,
    IdentityWritten, IdentityRecord, NotRecorded, FaceSize, FaceNotKnown, YearsBetween, YearFrom, YearTo, PlacesHow, WrittenBy, PhotographCounts,
    SizeUnsure, Purpose, Author, DateOfDocument, CautionUltraviolet, CautionXrays, SectionPhotographs, PhotographsOnPlane, PhotographsOffPlane,
    PhotographsCalibration, NoPhotographs, PhotographShows, PhotographTaken, LightDoubt, Certain, Probable, Possible, NoScaleBar, PhotographAlt,
    SectionAlignment, AlignmentHow, AlignmentTable, ColumnPhotograph, ColumnVerdict, ColumnMmInPixel, ColumnResidual, ColumnWhy, NobodyTried,
    NotOnPlane, SectionReadings, NoReadings, ReadingTable, ReadingRunTable, ReadingVersion, ReadingFrom, EveryFigure, ColumnFigure, ColumnValue,
    ColumnUnit, ColumnNote, NoAnswer, NoAnswerBecause, EnglishRecord, SectionFiles, FilesHow, FilesTable, ColumnFile, ColumnPixels, ColumnKind,
    ColumnProfile, ColumnCamera, NoProfile, BitsOf, BandsFloat, BandsSigned, Closing, SectionCircumstances, Circumstances, Accessories, PastTreatment,
    References, SectionMethods, MethodsHow, MethodsTable, ColumnReading, ColumnParameters, ColumnInputs, ColumnRun, MethodsBy, RunsRepeated,
    SectionFindings, NoFindings, NoneOfThese, Observation, Interpretation, Confidence, ConfidenceCertain, ConfidenceProbable, ConfidencePossible,
    Term, Zones, Severity, SeverityBy, Evidence, SeenBy, SeenOn, ZoneOf, AreaOf, AreaUnsure, AreaSizeUnknown, LengthOf, PointOf, SectionWarnings,
    WarningsHow, NoWarnings, WarningOf, SectionStratigraphy, StratigraphyDrawn, StratigraphyAlt, SampleTable, ColumnSample, ColumnPlace,
    ColumnQuestion, ColumnTaken, LayersOfSample, ColumnLayer, ColumnThickness, ColumnRange, NoSamples, PlaceNotKnown, SectionBuildUp, BuildUpDrawn,
    BuildUpAlt, NoBuildUp, BuildUpContradiction, SectionPlan, PlanTable, ColumnFinding, ColumnTerm, ColumnZone, ColumnArea, ColumnShare, NoZones,
    PlanDrawn, PlanAlt, SectionStates, StateOf, NoStates, StateHash, NotSealed, SectionTreatmentPlan, SectionTreatment, Course, Materials,
    TimeEstimate, Cost, Approval, Actions, Variations, AddedMaterials, NewFindings, NotHeld, NotHeldNote, DeviationRule, SectionSignatures,
    RoleConservator, RoleOwner, RoleLender, RoleBorrower, SectionHeld, HeldHow, HeldTable, ColumnRequired, ColumnAskedBy, ColumnHeld, Yes, Missing,
    NeedPurpose, NeedAuthor, NeedDate, NeedNumber, NeedOwner, NeedMaker, NeedTitle, NeedSize, NeedMarks, NeedDating, NeedFindings, NeedAccessories,
    NeedCircumstances, NeedMethods, NeedPastTreatment, NeedReferences, NeedBefore, NeedContext, NeedCondition, NeedCourse, NeedMaterials, NeedTime,
    NeedCost, NeedApproval, NeedActions, NeedAfter, NeedVariations, NeedAdded, NeedNewFindings, NeedBaseline, NeedUpdate, NeedPictures, NeedBothSign,
}
